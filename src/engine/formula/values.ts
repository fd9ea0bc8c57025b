import { CellError } from "../../cells/index.js";

/** What one cell holds while a formula is calculated; null is a blank cell. */
export type Scalar = number | string | boolean | null | CellError;

/** A block of values that no cells stand for, row by row. */
export class Matrix {
  constructor(readonly rows: readonly (readonly Scalar[])[]) {}

  get height(): number {
    return this.rows.length;
  }

  get width(): number {
    return this.rows[0]?.length ?? 0;
  }

  at(row: number, column: number): Scalar {
    return this.rows[row]?.[column] ?? null;
  }
}

/** The cells of one sheet, as a formula reads them. */
export interface CellGrid {
  /** Its place among the workbook's worksheets. */
  readonly index: number;
  readonly name: string;
  /** The last row and column that hold anything. */
  readonly lastRow: number;
  readonly lastColumn: number;
  cellAt(row: number, column: number): Scalar;
  /** What fills a cell, where a formula does: the block of it, and whether it is a subtotal. */
  formulaAt(
    row: number,
    column: number,
  ): { readonly fills: Corners | undefined; readonly isSubtotal: boolean } | undefined;
  rowStateAt(row: number): "shown" | "hidden" | "filtered";
}

/** A block by its corners, both included; rows and columns count from 1. */
export interface Corners {
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** A block of cells of one sheet. A whole column goes down to the last row that a sheet can have. */
export class Range implements Corners {
  constructor(
    readonly grid: CellGrid,
    readonly firstRow: number,
    readonly firstColumn: number,
    readonly lastRow: number,
    readonly lastColumn: number,
  ) {}

  get height(): number {
    return this.lastRow - this.firstRow + 1;
  }

  get width(): number {
    return this.lastColumn - this.firstColumn + 1;
  }

  get isCell(): boolean {
    return this.firstRow === this.lastRow && this.firstColumn === this.lastColumn;
  }

  /** The last row and column in it that hold anything; below its first where none does. */
  get usedLastRow(): number {
    return Math.min(this.lastRow, this.grid.lastRow);
  }

  get usedLastColumn(): number {
    return Math.min(this.lastColumn, this.grid.lastColumn);
  }

  /** The value at a place counted from 0 within the block. */
  at(row: number, column: number): Scalar {
    return this.grid.cellAt(this.firstRow + row, this.firstColumn + column);
  }
}

/** Several blocks: a union, or the same block of several sheets. */
export class Areas {
  constructor(
    readonly ranges: readonly Range[],
    /** Whether it goes through sheets, `Jan:Mar!A1`, which only functions that take many values accept. */
    readonly isThroughSheets: boolean,
  ) {}
}

/** A function made by LAMBDA. */
export class Lambda {
  constructor(
    readonly parameterCount: number,
    readonly call: (given: readonly Value[]) => Value,
  ) {}
}

/** Whatever a part of a formula can give; undefined is an argument that was left out. */
export type Value = Scalar | Matrix | Range | Areas | Lambda | undefined;

export const ERROR = {
  value: new CellError(
    "#VALUE!",
    "A value of the wrong kind: text where a number belongs, or a block where one cell does.",
  ),
  number: new CellError("#NUM!", "The numbers given have no result."),
  tooLarge: new CellError("#NUM!", "The result is too large for a cell."),
  division: new CellError("#DIV/0!", "A division by zero, or an average of no numbers."),
  notFound: new CellError("#N/A", "Nothing was found that fits."),
  missing: new CellError("#N/A", "A value is not available."),
  reference: new CellError("#REF!", "The reference leads to no cells."),
  name: new CellError("#NAME?", "The name in the formula is not defined."),
  none: new CellError("#NULL!", "The two blocks have no cell in common."),
  block: new CellError("#N/A", "The block ends before this cell."),
} as const;

/** Returns a number as a cell can hold it: what is not finite is an error. */
export function finite(number: number): Scalar {
  if (Number.isFinite(number)) return number === 0 ? 0 : number;
  return Number.isNaN(number) ? ERROR.number : ERROR.tooLarge;
}
