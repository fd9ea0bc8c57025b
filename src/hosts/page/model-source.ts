import type { Model } from "@odoo/o-spreadsheet";
import type { SheetSource } from "../../workbook/index.js";
import { cellFormula, cellValue } from "./cells-of.js";
import { mergedRanges } from "./layout-in-view.js";

/** Shows a sheet of the grid to whoever reads lists, cell by cell, without reading it whole. */
export function sheetOfModel(model: Model, sheetId: string): SheetSource {
  const { getters } = model;
  const lastRow = getters.getNumberRows(sheetId);
  const place = (row: number, column: number) => ({ sheetId, row: row - 1, col: column - 1 });
  const lastColumn = getters.getNumberCols(sheetId);
  const isInside = (row: number, column: number): boolean =>
    row >= 1 && column >= 1 && row <= lastRow && column <= lastColumn;
  return {
    name: getters.getSheetName(sheetId),
    lastRow,
    lastColumn,
    *rowsFrom(row) {
      for (let one = Math.max(row, 1); one <= lastRow; one += 1) yield one;
    },
    valueAt: (row, column) => (isInside(row, column) ? cellValue(model, place(row, column)) : null),
    formulaAt: (row, column) =>
      isInside(row, column) ? (cellFormula(model, place(row, column)) ?? undefined)?.replace(/^=/, "") : undefined,
    hasFormula: (row, column) => isInside(row, column) && (cellFormula(model, place(row, column)) ?? null) !== null,
    tables: [],
    mergedRanges: mergedRanges(model, sheetId),
    isRowHidden: (row) => getters.isRowHidden(sheetId, row - 1),
  };
}
