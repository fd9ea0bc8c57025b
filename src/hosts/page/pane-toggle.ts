import { restoreFocus } from "./restore-focus.js";

/** What a person can move to with the keyboard. */
const REACHABLE =
  "a[href], button:not(:disabled, [tabindex='-1']), input:not(:disabled), select:not(:disabled), textarea:not(:disabled)";

/** Moves the focus into the pane: to its first control, once it has one. It has none before it has read the workbook. */
function focusInside(pane: HTMLElement): void {
  const first = () => pane.querySelector<HTMLElement>(REACHABLE);
  (first() ?? pane).focus();
  if (first() !== null) return;
  const waiting = new MutationObserver(() => {
    if (first() === null) return;
    waiting.disconnect();
    if (document.activeElement === pane) first()?.focus();
  });
  waiting.observe(pane, { childList: true, subtree: true });
}

/**
 * Makes a button show and hide the pane beside the grid. The focus goes into the pane when it opens, and back to the
 * button when it closes. Ctrl+F6 goes from the grid into the pane and back, since the grid keeps Tab for itself.
 */
export function showPaneBy(button: HTMLElement, pane: HTMLElement): void {
  const show = (isShown: boolean): void => {
    pane.hidden = !isShown;
    button.setAttribute("aria-expanded", String(isShown));
    if (isShown) focusInside(pane);
    else button.focus();
    // The grid measures its place when the window does.
    window.dispatchEvent(new Event("resize"));
  };
  button.addEventListener("click", () => show(pane.hasAttribute("hidden")));
  pane.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    event.stopPropagation();
    show(false);
  });

  let left: HTMLElement | null = null;
  const goBetween = (event: KeyboardEvent): void => {
    if (event.key !== "F6" || !event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    event.stopPropagation();
    if (pane.contains(document.activeElement)) {
      restoreFocus(left);
      return;
    }
    left = document.activeElement instanceof HTMLElement ? document.activeElement : null;
    show(true);
  };
  document.addEventListener("keydown", goBetween, { capture: true });
}
