import type { Model } from "@odoo/o-spreadsheet";

/** Brings a sheet to the front. */
export function activate(model: Model, sheetIdTo: string): void {
  const sheetIdFrom = model.getters.getActiveSheetId();
  if (sheetIdFrom !== sheetIdTo) model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo });
}
