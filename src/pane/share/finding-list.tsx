import { type Finding, placeOf, sentencesOf } from "../../workbook/finding.js";

interface FindingListProps {
  readonly findings: readonly Finding[];
}

/** More than anybody reads here; the summary workbook has them all. */
const MOST_SHOWN = 100;

/** Findings of a roll-up, each with its file and place. */
export function FindingList({ findings }: FindingListProps) {
  const rest = findings.length - MOST_SHOWN;
  return (
    <ul class="vs-plain">
      {findings.slice(0, MOST_SHOWN).map((finding, index) => (
        <li key={index}>
          <strong>{finding.file}</strong>
          {placeOf(finding) !== "" && ` ${placeOf(finding)}`}: {sentencesOf(finding)}
        </li>
      ))}
      {rest > 0 && <li>And {rest} more.</li>}
    </ul>
  );
}
