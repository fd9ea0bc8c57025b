import { helpers, type Model } from "@odoo/o-spreadsheet";

/** Returns what the selected cell shows, in words: the grid is a picture, which a screen reader cannot read. */
function inWords({ getters }: Model): string {
  const place = getters.getActivePosition();
  const address = helpers.toXC(place.col, place.row);
  const cell = getters.getEvaluatedCell(place);
  if (cell.type === "error") return `${address}: ${String(cell.value)} – ${cell.message?.toString() ?? ""}`;
  const filtered = getters.isFilterHeader(place) && getters.isFilterActive(place) ? " (filtered)" : "";
  return `${address}: ${cell.formattedValue === "" ? "empty" : cell.formattedValue}${filtered}`;
}

/** Keeps the selected cell's content in an element; returns how to stop. */
export function readCellInto(model: Model, element: HTMLElement): () => void {
  const owner = {};
  const show = (): void => {
    const words = inWords(model);
    if (element.textContent !== words) element.textContent = words;
  };
  model.on("update", owner, show);
  show();
  return () => model.off("update", owner);
}
