import { type CellRange, formatAddress, parseAddress, parseRange } from "../address.js";
import { moveFormula } from "../formula/move-formula.js";
import type { Cell, CellFormula, CellValue, Sheet } from "../sheet.js";
import { CELL_KIND, type CellTable, findCell, findRow } from "./cell-table.js";

/**
 * Returns a cell, or undefined where the file stores none.
 *
 * @param sheet - The sheet
 * @param address - Such as B7
 * @example
 * cellAt(sheet, "B7")?.value // => 425
 */
export function cellAt(sheet: Sheet, address: string): Cell | undefined {
  const position = parseAddress(address);
  return position && cellAtPosition(sheet, position.row, position.column);
}

/** Returns the cell at a row and a column, both counted from 1, or undefined where the file stores none. */
export function cellAtPosition(sheet: Sheet, row: number, column: number): Cell | undefined {
  const rowIndex = findRow(sheet.cells, row);
  if (rowIndex < 0) return undefined;
  const index = findCell(sheet.cells, rowIndex, column);
  return index < 0 ? undefined : makeCell(sheet, row, index);
}

/** Returns the value at a row and a column; null where the cell is blank or not stored. Makes no object for a number. */
export function valueAt(sheet: Sheet, row: number, column: number): CellValue {
  const rowIndex = findRow(sheet.cells, row);
  const index = rowIndex < 0 ? -1 : findCell(sheet.cells, rowIndex, column);
  return index < 0 ? null : storedValue(sheet, index);
}

/** Whether the cell at a row and a column holds a formula. */
export function hasFormulaAt(sheet: Sheet, row: number, column: number): boolean {
  const rowIndex = findRow(sheet.cells, row);
  const index = rowIndex < 0 ? -1 : findCell(sheet.cells, rowIndex, column);
  return index >= 0 && (sheet.cells.formulaIndexes[index] as number) >= 0;
}

/** Goes through every stored cell, row by row. */
export function* cellsOf(sheet: Sheet): Generator<Cell> {
  const { cells } = sheet;
  for (let rowIndex = 0; rowIndex < cells.rowCount; rowIndex += 1) {
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    for (let index = cells.rowFirstCells[rowIndex] as number; index < end; index += 1) {
      yield makeCell(sheet, cells.rowNumbers[rowIndex] as number, index);
    }
  }
}

/** Goes through the cells that hold a formula, row by row. */
export function* formulaCellsOf(sheet: Sheet): Generator<Cell & { readonly formula: CellFormula }> {
  const { cells } = sheet;
  if (cells.formulas.length === 0) return;
  for (let rowIndex = 0; rowIndex < cells.rowCount; rowIndex += 1) {
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    for (let index = cells.rowFirstCells[rowIndex] as number; index < end; index += 1) {
      if ((cells.formulaIndexes[index] as number) < 0) continue;
      const cell = makeCell(sheet, cells.rowNumbers[rowIndex] as number, index);
      if (cell.formula !== undefined) yield { ...cell, formula: cell.formula };
    }
  }
}

/** Goes through the formulas alone, row by row: what they give and how their cells look is left aside. */
export function* formulasOf(sheet: Sheet): Generator<Pick<Cell, "row" | "column"> & { readonly formula: CellFormula }> {
  const { cells } = sheet;
  if (cells.formulas.length === 0) return;
  for (let rowIndex = 0; rowIndex < cells.rowCount; rowIndex += 1) {
    const row = cells.rowNumbers[rowIndex] as number;
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    for (let index = cells.rowFirstCells[rowIndex] as number; index < end; index += 1) {
      const formulaIndex = cells.formulaIndexes[index] as number;
      const formula = formulaIndex < 0 ? undefined : formulaOf(cells, formulaIndex);
      if (formula !== undefined) yield { row, column: cells.columns[index] as number, formula };
    }
  }
}

/** Goes through the stored cells of a block, row by row. */
export function* cellsIn(sheet: Sheet, range: CellRange): Generator<Cell> {
  const { cells } = sheet;
  const found = findRow(cells, range.firstRow);
  for (let rowIndex = found < 0 ? ~found : found; rowIndex < cells.rowCount; rowIndex += 1) {
    const row = cells.rowNumbers[rowIndex] as number;
    if (row > range.lastRow) return;
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    const first = findCell(cells, rowIndex, range.firstColumn);
    for (let index = first < 0 ? ~first : first; index < end; index += 1) {
      if ((cells.columns[index] as number) > range.lastColumn) break;
      yield makeCell(sheet, row, index);
    }
  }
}

/** Makes the cell at an index of the table. */
export function makeCell(sheet: Sheet, row: number, index: number): Cell {
  const { cells } = sheet;
  const column = cells.columns[index] as number;
  const formulaIndex = cells.formulaIndexes[index] as number;
  return {
    row,
    column,
    address: formatAddress(row, column),
    value: storedValue(sheet, index),
    formula: formulaIndex < 0 ? undefined : formulaOf(cells, formulaIndex),
    style: cells.styles[index] as number,
  };
}

/** Returns the value at an index of the table. */
export function storedValue(sheet: Sheet, index: number): CellValue {
  const { cells, workbook } = sheet;
  const number = cells.numbers[index] as number;
  switch (cells.kinds[index]) {
    case CELL_KIND.number:
      return number;
    case CELL_KIND.sharedText:
      return workbook.strings[number] ?? "";
    case CELL_KIND.ownText:
      return cells.texts[number] ?? "";
    case CELL_KIND.boolean:
      return number === 1;
    case CELL_KIND.error:
      return { error: cells.texts[number] ?? "#VALUE!" };
    default:
      return null;
  }
}

function formulaOf(cells: CellTable, formulaIndex: number): CellFormula | undefined {
  const stored = cells.formulas[formulaIndex];
  if (stored === undefined) return undefined;
  const { kind, row, column } = stored;
  const isDynamic = kind === "array" && stored.isDynamic;
  if (kind !== "shared") {
    const range = kind === "plain" ? undefined : parseRange(stored.range ?? "");
    return { kind, text: stored.text, range, isDynamic, storedAt: undefined };
  }
  const master = cells.formulas[stored.masterIndex];
  if (master === undefined) return { kind, text: stored.text, range: undefined, isDynamic, storedAt: undefined };
  const storedAt = { row: master.row, column: master.column };
  const text = moveFormula(master.text, row - master.row, column - master.column);
  return { kind, text, range: undefined, isDynamic, storedAt };
}
