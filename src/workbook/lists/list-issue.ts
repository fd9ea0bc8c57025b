/** What a reader of lists finds wanting, for callers that act on it; the message says the same in words. */
export type ListIssueCode =
  | "missing-column"
  | "repeated-column"
  | "no-outlet-tag"
  | "units"
  | "not-a-number"
  | "out-of-range"
  | "error-value"
  /** A formula without a stored result. */
  | "not-calculated"
  /** Readings from which no airflow follows, since a size or a time is missing. */
  | "no-airflow"
  /** Readings whose row has no formula for the airflow: it was worked out from them. */
  | "worked-out"
  | "kind"
  | "date"
  /** A row that adds others up. */
  | "total-row"
  /** A text among or below the outlets, without anything beside it. */
  | "remark"
  | "too-long";

/** What a finding costs: the whole list, its outlet's place in the sums, or nothing. */
export type ListIssueCost = "list" | "outlet" | "note";

/** One thing to know of a list. */
export interface ListIssue {
  readonly code: ListIssueCode;
  readonly leftOut: ListIssueCost;
  readonly sheet: string;
  /** A cell or rows in A1 notation, `P14` or `9:12`; "" for the whole sheet. */
  readonly place: string;
  /** What is wrong and what to do, in whole sentences, without the place. */
  readonly message: string;
}

/** Spells where a finding is: `Job summary!P14`. */
export function placeOf({ sheet, place }: Pick<ListIssue, "sheet" | "place">): string {
  return place === "" ? sheet : `${sheet}!${place}`;
}
