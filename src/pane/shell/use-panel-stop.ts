import type { RefObject } from "preact";
import { useLayoutEffect } from "preact/hooks";

/** What Tab stops at. */
const STOP = [
  "a[href]",
  "summary",
  ...["button", "input", "select", "textarea"].map((name) => `${name}:not(:disabled)`),
  '[tabindex]:not([tabindex="-1"])',
].join(", ");

/**
 * Lets Tab stop at a panel while nothing in it can have the focus, as while it still reads the workbook. Otherwise a
 * Tab pressed early would leave the pane, and the fields that come a moment later would be behind the focus.
 *
 * @param panel - The panel's place; it can always take the focus by itself
 * @param isShown - Whether the panel is there
 */
export function usePanelStop(panel: RefObject<HTMLElement | null>, isShown: boolean): void {
  useLayoutEffect(() => {
    const element = panel.current;
    if (!isShown || element === null) return undefined;
    const follow = () => {
      const stop = element.querySelector(STOP) === null ? 0 : -1;
      // What is set is seen as a change too, even where it is the same.
      if (element.tabIndex !== stop) element.tabIndex = stop;
    };
    follow();
    const watch = new MutationObserver(follow);
    watch.observe(element, { childList: true, subtree: true, attributeFilter: ["disabled", "tabindex"] });
    return () => watch.disconnect();
  }, [panel, isShown]);
}
