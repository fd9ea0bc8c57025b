import type { SheetCells } from "./sheet-cells.js";

/** A cell as the library names it: rows and columns count from 0, a sheet goes by its place in the list. */
export interface EnginePosition {
  readonly sheetId: string;
  readonly row: number;
  readonly col: number;
}

/** As much of a formula cell as the library looks at to see whether it is a subtotal. */
const SUBTOTAL_CELL = { isFormula: true, compiledFormula: { usesSymbol: () => true } };

/**
 * Answers what the library's SUBTOTAL asks of a workbook: which rows are hidden, and which cells are subtotals themselves.
 *
 * The function is the library's own, as in the page, and what it leaves out is what the standard and Excel leave out:
 * subtotals within its ranges, rows that a filter hides, and, for the numbers from 101, rows that a person hides.
 *
 * @source ECMA-376-1:2016, section 18.17.7.316 (SUBTOTAL)
 */
export function rowGetters(sheets: readonly SheetCells[], isSubtotal: (formula: number) => boolean) {
  const stateOf = (sheetId: string, row: number) => sheets[Number(sheetId)]?.sheet.rowStateAt(row + 1);
  return {
    isRowFiltered: (sheetId: string, row: number) => stateOf(sheetId, row) === "filtered",
    isRowHiddenByUser: (sheetId: string, row: number) => stateOf(sheetId, row) === "hidden",
    getCorrespondingFormulaCell({ sheetId, row, col }: EnginePosition) {
      const formula = sheets[Number(sheetId)]?.formulaAt(row + 1, col + 1);
      return formula !== undefined && isSubtotal(formula) ? SUBTOTAL_CELL : undefined;
    },
  };
}
