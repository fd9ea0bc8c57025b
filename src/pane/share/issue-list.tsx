import type { RollUpIssue } from "../../workbook/rollup/index.js";

interface IssueListProps {
  readonly issues: readonly RollUpIssue[];
}

/** More than anybody reads here; the summary workbook has them all. */
const MOST_SHOWN = 100;

/** Findings of a roll-up, each with its file and place. */
export function IssueList({ issues }: IssueListProps) {
  const rest = issues.length - MOST_SHOWN;
  return (
    <ul class="vs-plain">
      {issues.slice(0, MOST_SHOWN).map((issue, index) => (
        <li key={index}>
          <strong>{issue.file}</strong>
          {issue.place !== "" && ` ${issue.place}`}: {issue.message}
        </li>
      ))}
      {rest > 0 && <li>And {rest} more.</li>}
    </ul>
  );
}
