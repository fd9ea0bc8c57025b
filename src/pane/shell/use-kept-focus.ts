import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/**
 * Keeps the keyboard's place in the pane over an action that takes away the control which started it: the focus then
 * goes to the panel, from which Tab goes on.
 *
 * @param isBusy - Whether an action runs
 * @returns The panel's place, for the element
 */
export function useKeptFocus(isBusy: boolean): RefObject<HTMLDivElement | null> {
  const panel = useRef<HTMLDivElement>(null);
  const wasInside = useRef(false);
  useLayoutEffect(() => {
    const isInside = panel.current?.contains(document.activeElement) === true;
    if (isBusy) wasInside.current = isInside;
    else if (wasInside.current && document.activeElement === document.body) panel.current?.focus();
  }, [isBusy]);
  return panel;
}
