import { restoreFocus } from "./restore-focus.js";

/**
 * Makes Ctrl+Shift+F6 go round: from the grid to the buttons of the bar, on to the pane where it is open, and back to where
 * it began. The grid keeps Tab for itself, so that without a mouse nothing else leads there.
 */
export function goRoundByKey(buttons: HTMLElement, pane: HTMLElement): void {
  let left: HTMLElement | null = null;
  const goRound = (event: KeyboardEvent): void => {
    if (event.key !== "F6" || !event.ctrlKey || !event.shiftKey) return;
    event.preventDefault();
    event.stopPropagation();
    const { activeElement } = document;
    if (pane.contains(activeElement)) restoreFocus(left);
    else if (!buttons.contains(activeElement)) {
      left = activeElement instanceof HTMLElement ? activeElement : null;
      buttons.querySelector("button")?.focus();
    } else if (pane.hidden) restoreFocus(left);
    else pane.focus();
  };
  // Pressed by the mouse, a button leaves the focus in the cells: what is typed next belongs there.
  buttons.addEventListener("mousedown", (event) => event.preventDefault());
  document.addEventListener("keydown", goRound, { capture: true });
}
