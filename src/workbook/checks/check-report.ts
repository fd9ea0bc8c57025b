import type { Finding } from "../finding.js";

/** What checking a workbook gave. */
export interface CheckReport {
  /** By sheet, row and column. */
  readonly findings: readonly Finding[];
  readonly sheetCount: number;
  readonly formulaCount: number;
  /** Formulas that call a VANE function: without one, little can be checked. */
  readonly vaneFormulaCount: number;
}
