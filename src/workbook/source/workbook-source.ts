import type { CellRange } from "../../xlsx/index.js";

/** What a cell shows; null where there is nothing. An error says why where anybody knows, "" otherwise. */
export type SourceValue =
  | number
  | string
  | boolean
  | null
  | {
      readonly error: string;
      readonly message: string;
    };

/** A table of a sheet: a block with a header row that the spreadsheet program knows by name. */
export interface SourceTable {
  readonly name: string;
  readonly range: CellRange;
  readonly headerRows: number;
  readonly totalsRows: number;
  readonly columns: readonly { readonly name: string }[];
}

/** The cells of one sheet, whoever holds them. Rows and columns count from 1. */
export interface SheetSource {
  readonly name: string;
  /** The last row and column that may hold something. */
  readonly lastRow: number;
  readonly lastColumn: number;
  /** The rows from one on that may hold something, in their order. */
  rowsFrom(row: number): Iterable<number>;
  valueAt(row: number, column: number): SourceValue;
  /** The formula of a cell without its equals sign, as its source spells it. */
  formulaAt(row: number, column: number): string | undefined;
  /** Whether a cell holds a formula, without reading it. */
  hasFormula(row: number, column: number): boolean;
  readonly tables: readonly SourceTable[];
  /** Blocks of cells that are merged into one; the first cell of each holds what it shows. */
  readonly mergedRanges: readonly CellRange[];
  /** Whether a row is out of sight, by a filter or by hand. */
  isRowHidden(row: number): boolean;
}

/** A defined name; `sheet` is the sheet on which alone it is known, undefined where it is known everywhere. */
export interface SourceName {
  readonly name: string;
  readonly sheet: string | undefined;
  readonly refersTo: string;
}

/** A workbook as the readers of lists, jobs and checks ask for it: a file's bytes or a live host show themselves so. */
export interface WorkbookSource {
  readonly sheets: readonly SheetSource[];
  readonly names: readonly SourceName[];
  /** Whether its dates count from 1904. */
  readonly usesDate1904: boolean;
}
