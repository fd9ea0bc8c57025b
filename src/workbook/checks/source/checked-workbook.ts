import type { CellRange, PlacedTable } from "../../../xlsx/index.js";

/** What a cell holds, as a check sees it; null where there is nothing. */
export type CheckedValue =
  | number
  | string
  | boolean
  | null
  | {
      readonly error: string;
      /** What the error says, "" where nobody knows. */
      readonly message: string;
    };

/** A cell that holds something. */
export interface FilledCell {
  readonly row: number;
  readonly column: number;
  readonly value: CheckedValue;
}

/** A formula, without its equals sign. */
export interface CheckedFormula {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** The cells that it fills where that is more than its own. */
  readonly fills: CellRange | undefined;
}

export interface CheckedSheet {
  readonly name: string;
  readonly lastRow: number;
  readonly lastColumn: number;
  valueAt(row: number, column: number): CheckedValue;
  /** The filled cells of a block, row by row. */
  cellsIn(range: CellRange): Iterable<FilledCell>;
  /** Row by row. */
  readonly formulas: readonly CheckedFormula[];
}

/** A defined name; `sheet` is the sheet on which alone it is known, undefined where it is known everywhere. */
export interface CheckedName {
  readonly name: string;
  readonly sheet: string | undefined;
  readonly refersTo: string;
}

/** What the checks need to know of a workbook, whoever holds it. */
export interface CheckedWorkbook {
  readonly sheets: readonly CheckedSheet[];
  readonly names: readonly CheckedName[];
  readonly tables: readonly PlacedTable[];
  /** Whether formulas are spelled as a person types them or as a file stores them. */
  readonly spelling: "typed" | "stored";
}
