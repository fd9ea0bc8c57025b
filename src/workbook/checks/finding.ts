/** What a check finds, each told in docs/checks.md. The order is that of findings on one cell. */
export const FINDING_KINDS = [
  "list-not-read",
  "heading-not-known",
  "total-among-outlets",
  "stuck-formula",
  "text-reading",
  "blank-reading",
  "zero-without-taken",
  "taken-counts-other-cells",
  "factor-out-of-range",
  "factor-used-twice",
  "area-in-other-unit",
  "velocity-in-other-unit",
  "percent-without-design",
  "unfinished-row",
  "too-few-points",
  "verdict-overridden",
  "formula-replaced",
  "size-in-other-unit",
  "reading-of-other-sign",
  "result-not-from-inputs",
  "airflow-far-from-design",
  "unknown-room",
  "unknown-system",
  "unknown-kind",
  "repeated-tag",
  "load-missing",
  "row-without-formulas",
  "rows-below-table",
  "left-without-found",
  "error-value",
] as const;

export type FindingKind = (typeof FINDING_KINDS)[number];

/** "error": a result is wrong or missing because of it. "warning": look at it before you rely on the result. */
export type FindingSeverity = "error" | "warning";

/** One thing to look at in a workbook. */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: FindingSeverity;
  readonly sheet: string;
  /** In A1 notation, without the sheet: `B7` or `B7:B12`. */
  readonly cell: string;
  /** What is wrong, one sentence. */
  readonly problem: string;
  /** What to do, one sentence. */
  readonly action: string;
}

/** What checking a workbook gave. */
export interface CheckReport {
  /** By sheet, row and column. */
  readonly findings: readonly Finding[];
  readonly sheetCount: number;
  readonly formulaCount: number;
  /** Formulas that call a VANE function: without one, little can be checked. */
  readonly vaneFormulaCount: number;
}
