import type { Finding } from "../finding.js";

/** What checking a workbook gave. */
export interface CheckReport {
  /** By sheet, row and column. */
  readonly findings: readonly Finding[];
  readonly sheetCount: number;
  /** Lists of outlets that are known, by their headings or by what the workbook keeps of its columns. */
  readonly listCount: number;
  readonly formulaCount: number;
  /** Formulas that call a VANE function: without one, little can be checked. */
  readonly vaneFormulaCount: number;
}
