import type { Finding } from "../finding.js";

/** Workbooks that are left out for one reason. */
export interface LeftOutGroup {
  /** A sentence. */
  readonly reason: string;
  readonly findings: readonly Finding[];
}

/** The reason of an older workbook of a job: nobody has to see to it. */
export const reasonOfSuperseded = "Another workbook of the same job counts instead.";

/** The first sentence of a problem; what follows is about this one. */
function reasonOf({ kind, problem }: Finding): string {
  if (kind === "superseded") return reasonOfSuperseded;
  return /^.*?[.!?](?=\s|$)/s.exec(problem)?.[0] ?? problem;
}

/**
 * Groups the workbooks that are left out by their reason, so that a hundred older revisions hide nothing: the causes that
 * somebody has to see to come first, the most frequent before the others, and those that are as they should be last.
 */
export function leftOutByReason(findings: readonly Finding[]): readonly LeftOutGroup[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    if (finding.leftOut !== "workbook") continue;
    const reason = reasonOf(finding);
    const known = groups.get(reason);
    if (known === undefined) groups.set(reason, [finding]);
    else known.push(finding);
  }
  const isExpected = (reason: string) => (reason === reasonOfSuperseded ? 1 : 0);
  return [...groups]
    .map(([reason, alike]) => ({ reason, findings: alike }))
    .sort(
      (one, other) =>
        isExpected(one.reason) - isExpected(other.reason) ||
        other.findings.length - one.findings.length ||
        (one.reason < other.reason ? -1 : 1),
    );
}
