/** What a roll-up finds wanting, for callers that act on it; the message says the same in words. */
export type RollUpIssueCode =
  /** The file cannot be opened, or is no workbook. */
  | "not-opened"
  /** The workbook holds neither a job summary nor a room balance. */
  | "no-outlets-sheet"
  | "missing-column"
  | "repeated-column"
  | "no-outlets"
  | "no-job-number"
  | "no-outlet-tag"
  | "repeated-outlet"
  | "units"
  | "not-a-number"
  | "out-of-range"
  | "error-value"
  /** A formula without a stored result. */
  | "not-calculated"
  | "date"
  | "kind"
  /** The stored percent or verdict differs from what the figures of the row give. */
  | "stale-result"
  /** Another workbook of the same job is newer, or is the same. */
  | "superseded"
  /** Something worth knowing about the file. */
  | "noted";

/**
 * One finding. "file": the whole workbook is left out; "outlet": one outlet is left out of the sums; "note": all of it
 * counts, but somebody should look.
 */
export interface RollUpIssue {
  readonly code: RollUpIssueCode;
  readonly leftOut: "file" | "outlet" | "note";
  readonly file: string;
  /** The sheet with the cell, such as `Job summary!P14`; "" where the finding is about the whole file. */
  readonly place: string;
  /** What is wrong and what to do, in whole sentences. */
  readonly message: string;
}
