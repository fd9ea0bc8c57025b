import type { Model } from "@odoo/o-spreadsheet";
import { inSlices } from "./in-slices.js";
import type { PageElements } from "./page-elements.js";
import { errorSummary, type SheetError, sheetErrors } from "./sheet-errors.js";

const QUIET_MS = 150;

/** Shows under the grid which cells of the sheet in view are in error, and why; returns how to stop. */
export function showErrorsIn(model: Model, { strip, stripText, stripGo }: PageElements): () => void {
  const owner = {};
  let timer: ReturnType<typeof setTimeout> | undefined;
  let first: SheetError | undefined;
  let looking = new AbortController();
  const show = async (): Promise<void> => {
    looking.abort();
    looking = new AbortController();
    const { signal } = looking;
    const errors = await inSlices(sheetErrors(model), signal).catch((cause: unknown) => {
      if (signal.aborted) return null;
      throw cause;
    });
    if (errors === null || signal.aborted) return;
    first = errors[0];
    const summary = errorSummary(errors);
    strip.hidden = summary === null;
    if (stripText.textContent !== (summary ?? "")) stripText.textContent = summary;
  };
  const later = (): void => {
    looking.abort();
    clearTimeout(timer);
    timer = setTimeout(() => void show(), QUIET_MS);
  };
  const go = (): void => {
    if (first !== undefined) model.selection.selectCell(first.col, first.row);
  };
  model.on("command-finalized", owner, later);
  stripGo.addEventListener("click", go);
  void show();
  return () => {
    looking.abort();
    model.off("command-finalized", owner);
    stripGo.removeEventListener("click", go);
    clearTimeout(timer);
  };
}
