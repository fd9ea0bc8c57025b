import type { Model } from "@odoo/o-spreadsheet";
import type { SheetLayout } from "../../workbook/index.js";
import { formatRange } from "../../xlsx/address.js";

/** The merged blocks of a sheet of the grid, as cells count: from 1. */
export function mergedRanges({ getters }: Pick<Model, "getters">, sheetId: string) {
  return getters.getMerges(sheetId).map(({ top, left, bottom, right }) => ({
    firstRow: top + 1,
    firstColumn: left + 1,
    lastRow: bottom + 1,
    lastColumn: right + 1,
  }));
}

/** The merged blocks and hidden rows of a sheet of the grid; none of a sheet that is gone. */
export function layoutInView(model: Pick<Model, "getters">, sheet: string): SheetLayout {
  const { getters } = model;
  const sheetId = getters.getSheetIdByName(sheet);
  if (sheetId === undefined) return { sheet, mergedRanges: [], hiddenRows: [] };
  const rows = Array.from({ length: getters.getNumberRows(sheetId) }, (_, index) => index);
  return {
    sheet,
    mergedRanges: mergedRanges(model, sheetId).map(formatRange),
    hiddenRows: rows.filter((row) => getters.isRowHidden(sheetId, row)).map((row) => row + 1),
  };
}
