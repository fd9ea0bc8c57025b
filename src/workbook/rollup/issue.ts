import type { ListIssueCode } from "../lists/index.js";

/** What a roll-up finds wanting, for callers that act on it; the message says the same in words. */
export type RollUpIssueCode =
  /** About a list of outlets, one of its rows or cells. */
  | ListIssueCode
  /** The file cannot be opened, or is no workbook. */
  | "not-opened"
  /** The workbook holds no list of outlets and no traverse. */
  | "no-outlets-sheet"
  | "no-outlets"
  | "no-job-number"
  /** A cell of the job details that cannot be read. */
  | "job-detail"
  /** Two rows of one list share a tag; both count. */
  | "repeated-outlet"
  /** Another list of the workbook names the outlet too; it counts once. */
  | "listed-twice"
  /** The stored percent or verdict differs from what the figures of the row give. */
  | "stale-result"
  /** Another workbook of the same job is newer, or is the same. */
  | "superseded"
  /** Something worth knowing about the file. */
  | "noted";

/**
 * One finding. "file": the whole workbook is left out; "list": one of its sheets; "outlet": one outlet is left out of the sums; "note": all of it
 * counts, but somebody should look.
 */
export interface RollUpIssue {
  readonly code: RollUpIssueCode;
  readonly leftOut: "file" | "list" | "outlet" | "note";
  readonly file: string;
  /** The sheet with the cell, such as `Job summary!P14`; "" where the finding is about the whole file. */
  readonly place: string;
  /** What is wrong and what to do, in whole sentences. */
  readonly message: string;
}
