import type { Model } from "@odoo/o-spreadsheet";
import { filteredRowsOf } from "../../engine/index.js";

/** Formulas that leave out what a filter hides. */
const READS_WHAT_IS_SHOWN = /\b(?:SUBTOTAL|AGGREGATE)\s*\(/i;

function hasSubtotals({ getters }: Model): boolean {
  return getters.getSheetIds().some((sheetId) =>
    getters.getCells(sheetId).some((cell) => {
      if (!cell.isFormula) return false;
      return READS_WHAT_IS_SHOWN.test(getters.getFormulaMovedInSheet(sheetId, cell.compiledFormula));
    }),
  );
}

/** Says how many rows of the sheet in view a filter hides, and whether they are counted; returns how to stop. */
export function showFilterIn(model: Model, words: HTMLElement): () => void {
  const owner = {};
  let shown = "";
  const show = (): void => {
    const sheetId = model.getters.getActiveSheetId();
    const rows = filteredRowsOf(model, sheetId);
    const key = rows.length === 0 ? "" : `${sheetId} ${rows.join(" ")}`;
    if (key === shown) return;
    shown = key;
    words.hidden = rows.length === 0;
    const hidden = rows.length === 1 ? "1 row is" : `${rows.length} rows are`;
    const counted = hasSubtotals(model) ? "Sums count them; SUBTOTAL and AGGREGATE do not." : "Sums still count them.";
    words.textContent = rows.length === 0 ? "" : `${hidden} hidden by a filter. ${counted}`;
  };
  model.on("command-finalized", owner, show);
  words.hidden = true;
  words.textContent = "";
  show();
  return () => model.off("command-finalized", owner);
}
