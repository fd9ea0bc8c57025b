import type { CellRange } from "../../../xlsx/index.js";
import type { ReadableHost } from "../../host.js";
import { hostSource, type SheetSource } from "../../source/index.js";
import type { CheckedFormula, CheckedSheet, CheckedWorkbook, FilledCell } from "./checked-workbook.js";

function formulasOf(source: SheetSource): readonly CheckedFormula[] {
  const formulas: CheckedFormula[] = [];
  for (const row of source.rowsFrom(1)) {
    for (let column = 1; column <= source.lastColumn; column += 1) {
      const text = source.formulaAt(row, column);
      if (text !== undefined) formulas.push({ row, column, text, fills: undefined });
    }
  }
  return formulas;
}

function* filledCells(source: SheetSource, range: CellRange): Generator<FilledCell> {
  const lastColumn = Math.min(range.lastColumn, source.lastColumn);
  for (const row of source.rowsFrom(range.firstRow)) {
    if (row > range.lastRow) return;
    for (let column = range.firstColumn; column <= lastColumn; column += 1) {
      const value = source.valueAt(row, column);
      if (value !== null) yield { row, column, value };
    }
  }
}

function checkedSheet(source: SheetSource): CheckedSheet {
  return { ...source, cellsIn: (range) => filledCells(source, range), formulas: formulasOf(source) };
}

/** Shows the workbook that a host has open to the checks; it reads every sheet in one batch. */
export async function checkedHost(host: ReadableHost): Promise<CheckedWorkbook> {
  const source = await hostSource(host);
  return {
    ...source,
    sheets: source.sheets.map(checkedSheet),
    tables: source.sheets.flatMap(({ name, tables }) => tables.map((table) => ({ sheet: name, table }))),
    spelling: "typed",
  };
}
