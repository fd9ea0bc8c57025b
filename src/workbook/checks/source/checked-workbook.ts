import type { CellRange, PlacedTable } from "../../../xlsx/index.js";
import type { SheetSource, SourceValue, WorkbookSource } from "../../source/index.js";

/** A cell that holds something. */
export interface FilledCell {
  readonly row: number;
  readonly column: number;
  readonly value: SourceValue;
}

/** A formula, without its equals sign. */
export interface CheckedFormula {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  /** The cells that it fills where that is more than its own. */
  readonly fills: CellRange | undefined;
}

export interface CheckedSheet extends SheetSource {
  /** The filled cells of a block, row by row. */
  cellsIn(range: CellRange): Iterable<FilledCell>;
  /** Row by row. */
  readonly formulas: readonly CheckedFormula[];
}

/** What the checks need to know of a workbook, whoever holds it. */
export interface CheckedWorkbook extends WorkbookSource {
  readonly sheets: readonly CheckedSheet[];
  readonly tables: readonly PlacedTable[];
  /** Whether formulas are spelled as a person types them or as a file stores them. */
  readonly spelling: "typed" | "stored";
}
