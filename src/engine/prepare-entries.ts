import type { Model } from "@odoo/o-spreadsheet";

/**
 * Lets the library find out now what depends on what, which it puts off to the first entry: that one would take ten times
 * as long as those after it. Nothing changes.
 */
export function prepareEntries(model: Model): void {
  const { getters } = model;
  for (const sheetId of getters.getSheetIds()) {
    // The last formula of a sheet is rarely read by others, so that hardly anything is calculated again.
    const last = getters.getCells(sheetId).findLast((cell) => cell.isFormula);
    if (last === undefined) continue;
    model.dispatch("EVALUATE_CELLS", { cellIds: [last.id] });
    return;
  }
}
