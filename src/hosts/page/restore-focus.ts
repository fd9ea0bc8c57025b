/** What has the focus while a person goes about in the grid. */
const GRID = ".o-grid-composer .o-composer";

/** Gives the focus back to where it was, or to the grid where that is gone: another workbook has a grid of its own. */
export function restoreFocus(left: HTMLElement | null): void {
  const place = left?.isConnected && left !== document.body ? left : document.querySelector<HTMLElement>(GRID);
  place?.focus();
}
