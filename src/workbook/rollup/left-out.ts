import type { RollUpIssue } from "./issue.js";

/** Workbooks that are left out for one reason. */
export interface LeftOutGroup {
  /** A sentence. */
  readonly reason: string;
  readonly issues: readonly RollUpIssue[];
}

const SUPERSEDED = "Another workbook of the same job counts instead.";

/** The first sentence of a message says what is wrong; what follows says what to do about this one. */
function reasonOf({ code, message }: RollUpIssue): string {
  if (code === "superseded") return SUPERSEDED;
  return /^.*?[.!?](?=\s|$)/s.exec(message)?.[0] ?? message;
}

/**
 * Groups the workbooks that are left out by their reason, so that a hundred older revisions hide nothing: the causes that
 * somebody has to see to come first, the most frequent before the others, and those that are as they should be last.
 */
export function leftOutByReason(issues: readonly RollUpIssue[]): readonly LeftOutGroup[] {
  const groups = new Map<string, RollUpIssue[]>();
  for (const issue of issues) {
    if (issue.leftOut !== "file") continue;
    const reason = reasonOf(issue);
    const known = groups.get(reason);
    if (known === undefined) groups.set(reason, [issue]);
    else known.push(issue);
  }
  const isExpected = (reason: string) => (reason === SUPERSEDED ? 1 : 0);
  return [...groups]
    .map(([reason, alike]) => ({ reason, issues: alike }))
    .sort(
      (one, other) =>
        isExpected(one.reason) - isExpected(other.reason) ||
        other.issues.length - one.issues.length ||
        (one.reason < other.reason ? -1 : 1),
    );
}
