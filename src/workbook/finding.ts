/** What a check finds, each told in docs/checks.md. The order is that of findings on one cell. */
export const CHECK_KINDS = [
  "list-not-read",
  "columns-not-known",
  "column-gone",
  "heading-not-known",
  "total-among-outlets",
  "stuck-formula",
  "text-reading",
  "blank-reading",
  "blank-as-zero",
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
  "size-not-read",
  "size-in-other-unit",
  "reading-of-other-sign",
  "result-not-from-inputs",
  "formula-differs",
  "range-stops-short",
  "counted-twice",
  "percents-added-up",
  "percent-rounded",
  "airflow-far-from-design",
  "unknown-room",
  "unknown-system",
  "unknown-kind",
  "repeated-tag",
  "load-missing",
  "designs-apart",
  "row-without-formulas",
  "rows-below-table",
  "hidden-outlets",
  "left-without-found",
  "retest-not-judged",
  "calibration-expired",
  "error-value",
] as const;

export type CheckKind = (typeof CHECK_KINDS)[number];

/** What besides is found where outlets are read to be balanced, measured or added up; some kinds are those of a check. */
export type ReadingKind =
  | "missing-column"
  | "no-outlet-tag"
  | "units"
  | "not-a-number"
  | "out-of-range"
  /** A formula without a stored result. */
  | "not-calculated"
  /** Readings whose row has no formula for the airflow: it was worked out from them. */
  | "worked-out"
  | "date"
  /** A row that is called a total. */
  | "total-row"
  /** A row that adds others up by its own formulas. */
  | "sum-row"
  /** A text among or below the outlets, without anything beside it. */
  | "remark"
  /** A cell of the job details that cannot be read. */
  | "job-detail";

/** What a roll-up finds besides, in a file or among several. */
export type RollUpKind =
  /** The file cannot be opened, or is no workbook. */
  | "not-opened"
  /** The workbook holds no list of outlets and no traverse. */
  | "no-outlets-sheet"
  | "no-outlets"
  | "no-job-number"
  /** Another list of the workbook names the outlet too; it counts once. */
  | "listed-twice"
  /** The stored percent or verdict differs from what the figures of the row give. */
  | "stale-result"
  /** Another workbook of the same job is newer, or is the same. */
  | "superseded"
  /** The readings are of a day that is still to come. */
  | "day-to-come"
  /** The meter was out of calibration on the day of the readings. */
  | "calibration"
  /** Something worth knowing about the file. */
  | "noted";

export type FindingKind = CheckKind | ReadingKind | RollUpKind;

/**
 * "error": a result is wrong, missing or left out because of it; a roll-up with one ends with status 1, a check does
 * with any finding. "warning": look at it before you rely on the result.
 */
export type FindingSeverity = "error" | "warning";

/** What whoever found it leaves out of the sums. */
export type LeftOut = "workbook" | "list" | "outlet" | "nothing";

/**
 * One thing to look at in a workbook: where, how bad, what is wrong, what to do. Whoever looks at a workbook tells it
 * in this one shape.
 */
export interface Finding {
  readonly kind: FindingKind;
  readonly severity: FindingSeverity;
  readonly leftOut: LeftOut;
  /** "" where only one workbook is looked at. */
  readonly file: string;
  /** Or a part of a file that cannot be read; "" where it is about the whole workbook. */
  readonly sheet: string;
  /** In A1 notation, without the sheet: `B7`, `B7:B12`, rows as `9:12`; "" for the whole sheet. */
  readonly cell: string;
  /** What is wrong, in whole sentences. */
  readonly problem: string;
  /** What to do, in whole sentences; "" where there is nothing to do. */
  readonly action: string;
}

/** Spells where in its workbook a finding is: `Job summary!P14`. */
export function placeOf({ sheet, cell }: Pick<Finding, "sheet" | "cell">): string {
  return cell === "" ? sheet : `${sheet}!${cell}`;
}

/** What is wrong and what to do, in one line. */
export function sentencesOf({ problem, action }: Pick<Finding, "problem" | "action">): string {
  return action === "" ? problem : `${problem} ${action}`;
}

/** A finding of a workbook whose file the caller names, as bad as what it leaves out. */
export function findingAt(
  [sheet, cell]: readonly [sheet: string, cell: string],
  kind: FindingKind,
  leftOut: LeftOut,
  problem: string,
  action: string,
): Finding {
  return {
    kind,
    severity: leftOut === "nothing" ? "warning" : "error",
    leftOut,
    file: "",
    sheet,
    cell,
    problem,
    action,
  };
}

/** A finding about a file as a whole. */
export function findingOf(file: string, kind: FindingKind, leftOut: LeftOut, problem: string, action: string): Finding {
  return { ...findingAt(["", ""], kind, leftOut, problem, action), file };
}

/** Whether a result is wrong, missing or left out. */
export function hasError(findings: readonly Finding[]): boolean {
  return findings.some(({ severity }) => severity === "error");
}
