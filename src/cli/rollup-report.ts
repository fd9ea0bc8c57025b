import type { RolledUpFiles } from "../hosts/file/rollup/index.js";
import { type Finding, placeOf, sentencesOf } from "../workbook/finding.js";
import { type GroupResult, leftOutByReason, type NameVariant, type RollUpChanges } from "../workbook/rollup/index.js";
import type { Outputs } from "./rollup-options.js";
import { onOneLine } from "./shown-controls.js";
import { counted } from "./workbook-report.js";

/** A finding with its place, on one line. */
export function inOneLine(finding: Finding): string {
  const where = [finding.file, placeOf(finding)].filter((part) => part !== "").join(" ");
  return onOneLine(`${where}: ${sentencesOf(finding)}`);
}

function shownPercent(percent: number | null): string {
  return percent === null ? "not known" : `${percent.toFixed(1)} %`;
}

function totalLine({ compared, percent, withinPercent, notMeasured, noDesign, faulty }: GroupResult): string {
  const left = [
    [notMeasured, "not measured"],
    [noDesign, "without design"],
    [faulty, "faulty"],
  ] as const;
  const rest = left.flatMap(([count, what]) => (count > 0 ? [`${count} ${what}`] : [])).join(", ");
  const others = rest === "" ? "" : ` Besides: ${rest}.`;
  if (compared === 0) return `No outlets to compare.${others}`;
  const judged =
    withinPercent === null ? "no limits to judge them by" : `${shownPercent(withinPercent)} of them within limits`;
  return `${counted(compared, "outlet")} compared: ${shownPercent(percent)} of design, ${judged}.${others}`;
}

/** So many workbooks of a reason are named one by one; the sheet lists every one. */
const MOST_NAMED = 5;

function printLeftOut(findings: readonly Finding[]): void {
  const groups = leftOutByReason(findings);
  if (groups.length === 0) return;
  const files = new Set(groups.flatMap((group) => group.findings.map(({ file }) => file))).size;
  console.log(`${counted(files, "workbook")} left out, whole or in part, for ${counted(groups.length, "reason")}:`);
  for (const { reason, findings: alike } of groups) {
    console.log(`  ${onOneLine(`${alike.length} × ${reason}`)}`);
    for (const finding of alike.slice(0, MOST_NAMED)) console.log(`      ${inOneLine(finding)}`);
    if (alike.length > MOST_NAMED) console.log(`      and ${alike.length - MOST_NAMED} more, on the sheet Left out`);
  }
}

const isMerged = ({ countsAs, jobs }: NameVariant) => countsAs !== null && jobs > 0;

/** So many changes of a kind are named one by one; the sheet Changes lists every one. */
function printSome(title: string, lines: readonly string[]): void {
  if (lines.length === 0) return;
  console.log(`  ${title}: ${lines.length}`);
  for (const line of lines.slice(0, MOST_NAMED)) console.log(`      ${onOneLine(line)}`);
  if (lines.length > MOST_NAMED) console.log(`      and ${lines.length - MOST_NAMED} more, on the sheet Changes`);
}

/** Says what is different from an earlier roll-up. */
export function printChanges(changes: RollUpChanges, earlier: string): void {
  const { newJobs, changedJobs, goneJobs, newProblems, goneProblems, isNewProblem } = changes;
  const counts = [newJobs, changedJobs, goneJobs, newProblems, goneProblems];
  const isSame = counts.every(({ length }) => length === 0);
  console.log(`Compared with ${earlier}: ${isNewProblem ? "new problems" : isSame ? "as it was" : "as usual"}.`);
  const name = ({ jobNumber, jobName, file }: (typeof newJobs)[number]) =>
    [jobNumber, jobName].filter((part) => part !== "").join(" ") || file;
  const problem = ({ file, place, text }: (typeof newProblems)[number]) =>
    `${[file, place].filter((part) => part !== "").join(" ")}: ${text}`;
  printSome("new problems", newProblems.map(problem));
  printSome("jobs gone", goneJobs.map(name));
  printSome("new jobs", newJobs.map(name));
  printSome(
    "jobs changed",
    changedJobs.map(({ job, changes: details }) => `${name(job)}: ${details.join("; ")}`),
  );
  printSome("problems gone", goneProblems.map(problem));
}

/** Says what a roll-up came to. */
export function print(
  { value, findings, found, read, inParts }: RolledUpFiles,
  { summary, part, csv, parquet }: Outputs,
): void {
  const origins = [
    { count: read, words: "read" },
    { count: found - read - inParts, words: "as they were in the last run" },
    { count: inParts, words: "from parts" },
  ];
  const come = origins.filter(({ count }) => count > 0).map(({ count, words }) => `, ${count} ${words}`);
  console.log(`${counted(found, "workbook")} found${come.join("")}.`);
  console.log(`${counted(value.jobs.length, "job")}. ${totalLine(value.total)}`);
  const [alike, merged] = [value.names.filter(({ like }) => like !== null), value.names.filter(isMerged)];
  if (merged.length > 0) console.log(`${counted(merged.length, "name")} merged by the table of names.`);
  if (alike.length > 0) console.log(`${counted(alike.length, "name")} like another, on the sheet Names.`);
  if (value.filteredOut > 0) console.log(`${counted(value.filteredOut, "job")} not among those asked for.`);
  printLeftOut(findings);
  const lists = findings.filter(({ leftOut }) => leftOut === "list");
  if (lists.length > 0) console.log(`${counted(lists.length, "reason")} why a list of outlets is left out:`);
  for (const finding of lists) console.log(`  ${inOneLine(finding)}`);
  const others = findings.filter(({ leftOut }) => leftOut !== "workbook").length;
  if (others > 0) console.log(`${counted(others, "finding")} in workbooks that count, on the sheet Findings.`);
  const written = [summary, part, csv, parquet].flatMap((target) => (target === undefined ? [] : [target.path]));
  console.log(`Wrote ${written.join(", ")}.`);
}
