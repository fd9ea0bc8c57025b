import { CELL_ERROR_CODES, CellError } from "../../cells/index.js";
import { type CellGrid, type Corners, ERROR, type Scalar } from "../formula/values.js";
import { firstAtLeast } from "./cell-set.js";
import type { SourceSheet, SourceValue } from "./source.js";

const ERRORS_BY_CODE: ReadonlyMap<string, CellError> = new Map(
  CELL_ERROR_CODES.map((code) => [code, new CellError(code, "")]),
);

/** Thrown where a formula reads a cell whose result is known to be old and could not be calculated. */
export class OutdatedInput extends Error {
  constructor(
    readonly sheet: string,
    readonly row: number,
    readonly column: number,
  ) {
    super("");
  }
}

const OUTDATED = Symbol("outdated");

/** Something about some cells of a sheet, by column and row. */
type ByCell<Kept> = Kept[][];

function keep<Kept>(cells: ByCell<Kept>, row: number, column: number, kept: Kept): void {
  const rows = cells[column];
  if (rows !== undefined) rows[row] = kept;
  else {
    const first: Kept[] = [];
    first[row] = kept;
    cells[column] = first;
  }
}

function storedScalar(value: SourceValue): Scalar {
  return typeof value === "object" && value !== null ? (ERRORS_BY_CODE.get(value.error) ?? ERROR.value) : value;
}

/** What is known of the formula that fills a cell. */
export interface FillingFormula {
  readonly fills: Corners | undefined;
  readonly isSubtotal: boolean;
}

/** The cells of one sheet while it is calculated: stored values, results over them, and where formulas stand. */
export interface SheetCells extends CellGrid {
  readonly sheet: SourceSheet;
  setResult(row: number, column: number, value: Scalar): void;
  /** Makes reading a cell throw. */
  setOutdated(row: number, column: number): void;
  /** Makes a formula known at every cell that it fills. */
  addFormula(formula: number, cells: Corners): void;
  /** The formula that fills a cell, by its number; undefined where there is none. */
  formulaIndexAt(row: number, column: number): number | undefined;
  /** Calls back with every formula that stands in a block. */
  eachFormulaIn(block: Corners, visit: (formula: number) => void): void;
}

/** A block of at most this many cells is looked at cell by cell, a larger one column by column. */
const SMALL_BLOCK = 64;

/**
 * @param sheet - As the source has it
 * @param index - Its place among the sheets
 * @param formulaOf - What is known of a formula by its number
 */
export function sheetCells(
  sheet: SourceSheet,
  index: number,
  formulaOf: (formula: number) => FillingFormula,
): SheetCells {
  const results: ByCell<Scalar | typeof OUTDATED> = [];
  const formulas: ByCell<number> = [];
  const rowsOfColumn = new Map<number, number[]>();
  let isSorted = true;

  function addAt(formula: number, row: number, column: number) {
    keep(formulas, row, column, formula);
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

  function eachCell({ firstRow, firstColumn, lastRow, lastColumn }: Corners, visit: (formula: number) => void) {
    for (let row = firstRow; row <= lastRow; row += 1) {
      for (let column = firstColumn; column <= lastColumn; column += 1) {
        const formula = formulas[column]?.[row];
        if (formula !== undefined) visit(formula);
      }
    }
  }

  function eachColumn({ firstRow, firstColumn, lastRow, lastColumn }: Corners, visit: (formula: number) => void) {
    if (!isSorted) sortRows();
    for (const [column, rows] of rowsOfColumn) {
      if (column < firstColumn || column > lastColumn) continue;
      for (let place = firstAtLeast(rows, firstRow); place < rows.length; place += 1) {
        const row = rows[place] as number;
        if (row > lastRow) break;
        visit(formulas[column]?.[row] as number);
      }
    }
  }

  return {
    sheet,
    index,
    name: sheet.name,
    lastRow: sheet.lastRow,
    lastColumn: sheet.lastColumn,
    rowStateAt: (row) => sheet.rowStateAt(row),
    cellAt(row, column) {
      const result = results[column]?.[row];
      if (result === undefined) return storedScalar(sheet.valueAt(row, column));
      if (result === OUTDATED) throw new OutdatedInput(sheet.name, row, column);
      return result;
    },
    formulaAt(row, column) {
      const formula = formulas[column]?.[row];
      return formula === undefined ? undefined : formulaOf(formula);
    },
    setResult: (row, column, value) => {
      keep(results, row, column, value);
    },
    setOutdated: (row, column) => {
      keep(results, row, column, OUTDATED);
    },
    addFormula(formula, cells) {
      for (let row = cells.firstRow; row <= cells.lastRow; row += 1) {
        for (let column = cells.firstColumn; column <= cells.lastColumn; column += 1) addAt(formula, row, column);
      }
    },
    formulaIndexAt: (row, column) => formulas[column]?.[row],
    eachFormulaIn(block, visit) {
      const size = (block.lastRow - block.firstRow + 1) * (block.lastColumn - block.firstColumn + 1);
      if (size <= SMALL_BLOCK) eachCell(block, visit);
      else eachColumn(block, visit);
    },
  };
}
