import { type Finding, placeOf, sentencesOf } from "../../finding.js";
import type { RollUpChanges } from "../compare/compare-roll-ups.js";
import type { EarlierFinding, EarlierJob } from "../compare/earlier-roll-up.js";
import { leftOutByReason } from "../left-out.js";
import { FINDING_HEADER, JOB_HEADER, LEFT_OUT_HEADER } from "./figure-columns.js";
import type { ReportColumn } from "./report-table.js";
import { type TableReport, tableReport, textColumn, wrappedColumn } from "./table-report.js";

/** More rows than this nobody reads, and a sheet of them is slow. */
const MOST_FINDINGS = 5000;

/** The workbooks that are left out: by reason, counted, those that somebody has to see to first. */
export function leftOutSheet(findings: readonly Finding[]): TableReport {
  const groups = leftOutByReason(findings);
  const rows = groups.flatMap(({ reason, findings: alike }) =>
    alike.map((finding) => ({ ...finding, reason, alike: alike.length })),
  );
  const columns: readonly ReportColumn<(typeof rows)[number]>[] = [
    wrappedColumn(LEFT_OUT_HEADER.reason, 34, ({ reason }) => reason),
    { header: "Alike", unit: "", width: 8, format: "thousands", style: "result", of: ({ alike }) => alike },
    wrappedColumn(LEFT_OUT_HEADER.workbook, 40, ({ file }) => file),
    textColumn(LEFT_OUT_HEADER.where, 16, (finding) => placeOf(finding) || null),
    wrappedColumn(LEFT_OUT_HEADER.what, 74, sentencesOf),
  ];
  const shown = rows.slice(0, MOST_FINDINGS);
  const more = rows.length - shown.length;
  const lead = `Workbooks of which nothing counts, or not every job.${more > 0 ? ` ${more} more are not listed here.` : ""}`;
  return tableReport("Left out", lead, columns, shown, null);
}

/** What a finding leaves out of the sums. */
const COSTS: Readonly<Record<Finding["leftOut"], string>> = {
  workbook: "the workbook",
  list: "the list",
  outlet: "the outlet",
  nothing: "nothing",
};

/** What was found in the workbooks that count. */
export function findingsSheet(findings: readonly Finding[]): TableReport {
  const columns: readonly ReportColumn<Finding>[] = [
    wrappedColumn(FINDING_HEADER.workbook, 46, ({ file }) => file),
    textColumn(FINDING_HEADER.where, 20, (finding) => placeOf(finding) || null),
    textColumn(FINDING_HEADER.costs, 18, ({ leftOut }) => COSTS[leftOut]),
    wrappedColumn(FINDING_HEADER.what, 90, sentencesOf),
  ];
  const ofThose = findings.filter(({ leftOut }) => leftOut !== "workbook");
  const shown = ofThose.slice(0, MOST_FINDINGS);
  const more = ofThose.length - shown.length;
  const lead = `An outlet with bad data counts in no sum.${more > 0 ? ` ${more} more findings are not listed here.` : ""}`;
  return tableReport("Findings", lead, columns, shown, null);
}

/** What is different from an earlier roll-up, what somebody has to look at first. */
export function changesSheet(changes: RollUpChanges): TableReport {
  interface Row {
    readonly what: string;
    readonly job: EarlierJob | null;
    readonly file: string;
    readonly detail: string;
  }
  const ofJob = (what: string, job: EarlierJob, detail: string): Row => ({ what, job, file: job.file, detail });
  const ofProblem = (what: string, { file, place, text }: EarlierFinding): Row => ({
    what,
    job: null,
    file,
    detail: place === "" ? text : `${place}: ${text}`,
  });
  const rows = [
    ...changes.newProblems.map((problem) => ofProblem("new problem", problem)),
    ...changes.goneJobs.map((job) => ofJob("job gone", job, `It had ${job.outlets} outlets.`)),
    ...changes.newJobs.map((job) => ofJob("new job", job, `${job.outlets} outlets, ${job.compared} compared`)),
    ...changes.changedJobs.map(({ job, changes: details }) => ofJob("job changed", job, details.join("; "))),
    ...changes.goneProblems.map((problem) => ofProblem("problem gone", problem)),
  ];
  const columns: readonly ReportColumn<Row>[] = [
    textColumn("What", 14, ({ what }) => what),
    textColumn(JOB_HEADER.number, 14, ({ job }) => job?.jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ job }) => job?.jobName || null),
    wrappedColumn("Workbook", 46, ({ file }) => file),
    wrappedColumn("From what to what", 90, ({ detail }) => detail),
  ];
  const shown = rows.slice(0, MOST_FINDINGS);
  const more = rows.length - shown.length;
  const lead = `What is different from the earlier roll-up.${more > 0 ? ` ${more} more are not listed here.` : ""}`;
  return tableReport("Changes", lead, columns, shown, null);
}
