import { restoreFocus } from "./restore-focus.js";

/**
 * Makes Ctrl+Shift+F6 go from wherever the focus is to the buttons of the bar, and back: the grid keeps Tab for itself,
 * so that without a mouse nothing else leads there.
 */
export function goToButtonsByKey(buttons: HTMLElement): void {
  let left: HTMLElement | null = null;
  const goBetween = (event: KeyboardEvent): void => {
    if (event.key !== "F6" || !event.ctrlKey || !event.shiftKey) return;
    event.preventDefault();
    event.stopPropagation();
    const { activeElement } = document;
    if (buttons.contains(activeElement)) {
      restoreFocus(left);
      return;
    }
    left = activeElement instanceof HTMLElement ? activeElement : null;
    buttons.querySelector("button")?.focus();
  };
  document.addEventListener("keydown", goBetween, { capture: true });
}
