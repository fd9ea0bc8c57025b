import type { Model } from "@odoo/o-spreadsheet";
import type { PageElements } from "./page-elements.js";
import { errorSummary, type SheetError, sheetErrors } from "./sheet-errors.js";

const QUIET_MS = 150;

/** Shows under the grid which cells of the sheet in view are in error, and why; returns how to stop. */
export function showErrorsIn(model: Model, { strip, stripText, stripGo }: PageElements): () => void {
  const owner = {};
  let timer: ReturnType<typeof setTimeout> | undefined;
  let first: SheetError | undefined;
  const show = (): void => {
    const errors = sheetErrors(model);
    first = errors[0];
    const summary = errorSummary(errors);
    strip.hidden = summary === null;
    if (stripText.textContent !== (summary ?? "")) stripText.textContent = summary;
  };
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(show, QUIET_MS);
  };
  const go = (): void => {
    if (first !== undefined) model.selection.selectCell(first.col, first.row);
  };
  model.on("command-finalized", owner, later);
  stripGo.addEventListener("click", go);
  show();
  return () => {
    model.off("command-finalized", owner);
    stripGo.removeEventListener("click", go);
    clearTimeout(timer);
  };
}
