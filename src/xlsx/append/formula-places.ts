import { formulaCellsOf } from "../read/cells.js";
import { readSheet } from "../read/read-sheet.js";
import type { Workbook } from "../workbook.js";

/** Where a formula stands, counted from 1. */
export interface FormulaPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/**
 * Returns where formulas stand on some sheets of a workbook: on sheets that came from another workbook, the stored
 * results are of the cells that the formulas looked at there, and each is to be calculated anew.
 */
export function formulaPlaces(workbook: Workbook, sheets: readonly string[]): readonly FormulaPlace[] {
  return sheets.flatMap((sheet) =>
    [...formulaCellsOf(readSheet(workbook, sheet))].map(({ row, column }) => ({ sheet, row, column })),
  );
}
