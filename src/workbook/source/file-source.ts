import {
  type CellValue,
  cellAtPosition,
  formatAddress,
  hasFormulaAt,
  readSheet,
  rowStateAt,
  type Sheet,
  valueAt,
  type Workbook,
} from "../../xlsx/index.js";
import type { SheetSource, SourceValue, WorkbookSource } from "./workbook-source.js";

/** Results that were calculated for formulas whose file stores none, by `Sheet!B7`. */
export type CalculatedResults = ReadonlyMap<string, CellValue>;

function shown(value: CellValue): SourceValue {
  return typeof value === "object" && value !== null ? { error: value.error, message: "" } : value;
}

function* storedRows({ cells }: Sheet, first: number): Generator<number> {
  for (let index = 0; index < cells.rowCount; index += 1) {
    const row = cells.rowNumbers[index] as number;
    if (row >= first) yield row;
  }
}

/** The last column in which a cell is stored. */
function lastColumnOf({ cells }: Sheet): number {
  let last = 0;
  for (let index = 0; index < cells.rowCount; index += 1) {
    const [first, end] = [cells.rowFirstCells[index] as number, cells.rowFirstCells[index + 1] as number];
    if (end > first) last = Math.max(last, cells.columns[end - 1] as number);
  }
  return last;
}

function sheetSource(sheet: Sheet, calculated: CalculatedResults): SheetSource {
  const { cells, name, tables } = sheet;
  const storedAt = (row: number, column: number) => shown(valueAt(sheet, row, column));
  return {
    name,
    tables,
    mergedRanges: sheet.mergedRanges,
    isRowHidden: (row) => rowStateAt(sheet, row) !== "shown",
    lastRow: cells.rowCount === 0 ? 0 : (cells.rowNumbers[cells.rowCount - 1] as number),
    lastColumn: lastColumnOf(sheet),
    rowsFrom: (row) => storedRows(sheet, row),
    valueAt:
      calculated.size === 0
        ? storedAt
        : (row, column) => {
            const result = calculated.get(`${name}!${formatAddress(row, column)}`);
            return result === undefined ? storedAt(row, column) : shown(result);
          },
    formulaAt: (row, column) =>
      hasFormulaAt(sheet, row, column) ? cellAtPosition(sheet, row, column)?.formula?.text : undefined,
    hasFormula: (row, column) => hasFormulaAt(sheet, row, column),
  };
}

/**
 * Shows a workbook file as it stores its results.
 *
 * @param calculated - Results that count instead of the stored ones
 */
export function fileSource(workbook: Workbook, calculated: CalculatedResults = new Map()): WorkbookSource {
  return {
    sheets: workbook.sheets
      .filter(({ kind }) => kind === "worksheet")
      .map(({ name }) => sheetSource(readSheet(workbook, name), calculated)),
    names: workbook.names,
    usesDate1904: workbook.usesDate1904,
  };
}
