import type { Prepared } from "./compile.js";
import type { SourceRange } from "./source.js";

/** One formula cell while the workbook is calculated. */
export interface FormulaNode {
  /** Its place in the list of sheets. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly prepared: Prepared;
  readonly fills: SourceRange | undefined;
  readonly isDynamic: boolean;
}

/** A block on one of the sheets. */
export interface PlacedBlock {
  readonly sheet: number;
  readonly block: SourceRange;
}
