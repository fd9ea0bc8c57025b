import { cellCount } from "../../xlsx/index.js";
import type { EngineCell } from "../exchange.js";
import { firstAtLeast } from "./cell-set.js";
import type { SourceRange, SourceSheet, SourceValue } from "./source.js";

/** More columns than a sheet can have, so that a row and a column make one number. */
const COLUMNS = 16_385;

function keyOf(row: number, column: number): number {
  return row * COLUMNS + column;
}

function storedCell(value: SourceValue): EngineCell {
  return typeof value === "object" && value !== null ? { value: value.error, message: "" } : { value };
}

/** The cells of one sheet while it is calculated: stored values, results over them, and where formulas stand. */
export interface SheetCells {
  readonly sheet: SourceSheet;
  cellAt(row: number, column: number): EngineCell;
  setResult(row: number, column: number, cell: EngineCell): void;
  /** Makes a formula known at every cell that it fills. */
  addFormula(formula: number, cells: SourceRange): void;
  /** The formula that fills a cell; undefined where there is none. */
  formulaAt(row: number, column: number): number | undefined;
  /** Calls back with every formula that stands in a block. */
  eachFormulaIn(block: SourceRange, visit: (formula: number) => void): void;
}

/** A block of at most this many cells is looked at cell by cell, a larger one column by column. */
const SMALL_BLOCK = 64;

export function sheetCells(sheet: SourceSheet): SheetCells {
  const results = new Map<number, EngineCell>();
  const formulas = new Map<number, number>();
  const rowsOfColumn = new Map<number, number[]>();
  let isSorted = true;

  function addAt(formula: number, row: number, column: number) {
    formulas.set(keyOf(row, column), formula);
    const rows = rowsOfColumn.get(column);
    if (rows === undefined) rowsOfColumn.set(column, [row]);
    else {
      if ((rows.at(-1) as number) > row) isSorted = false;
      rows.push(row);
    }
  }

  function sortRows() {
    for (const rows of rowsOfColumn.values()) rows.sort((one, other) => one - other);
    isSorted = true;
  }

  function eachCell({ firstRow, firstColumn, lastRow, lastColumn }: SourceRange, visit: (formula: number) => void) {
    for (let row = firstRow; row <= lastRow; row += 1) {
      for (let column = firstColumn; column <= lastColumn; column += 1) {
        const formula = formulas.get(keyOf(row, column));
        if (formula !== undefined) visit(formula);
      }
    }
  }

  function eachColumn({ firstRow, firstColumn, lastRow, lastColumn }: SourceRange, visit: (formula: number) => void) {
    if (!isSorted) sortRows();
    for (const [column, rows] of rowsOfColumn) {
      if (column < firstColumn || column > lastColumn) continue;
      for (let index = firstAtLeast(rows, firstRow); index < rows.length; index += 1) {
        const row = rows[index] as number;
        if (row > lastRow) break;
        visit(formulas.get(keyOf(row, column)) as number);
      }
    }
  }

  return {
    sheet,
    cellAt: (row, column) => results.get(keyOf(row, column)) ?? storedCell(sheet.valueAt(row, column)),
    setResult: (row, column, cell) => {
      results.set(keyOf(row, column), cell);
    },
    addFormula(formula, cells) {
      for (let row = cells.firstRow; row <= cells.lastRow; row += 1) {
        for (let column = cells.firstColumn; column <= cells.lastColumn; column += 1) addAt(formula, row, column);
      }
    },
    formulaAt: (row, column) => formulas.get(keyOf(row, column)),
    eachFormulaIn(block, visit) {
      if (cellCount(block) <= SMALL_BLOCK) eachCell(block, visit);
      else eachColumn(block, visit);
    },
  };
}
