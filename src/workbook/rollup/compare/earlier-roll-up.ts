import type { Cfm } from "../../../core/index.js";
import { type Finding, placeOf, sentencesOf } from "../../finding.js";
import type { GroupResult } from "../group-result.js";
import type { JobResult } from "../roll-up.js";

/** The figures of a job that two roll-ups are compared by, with the words for them. */
export const COMPARED_COUNTS = [
  ["outlets", "outlets"],
  ["compared", "compared"],
  ["notMeasured", "not measured"],
  ["noDesign", "without design"],
  ["faulty", "faulty"],
  ["low", "low"],
  ["within", "within"],
  ["high", "high"],
  ["open", "open"],
] as const satisfies readonly (readonly [keyof GroupResult, string])[];

type CountKey = (typeof COMPARED_COUNTS)[number][0];

/** What an earlier roll-up said of one job. */
export interface EarlierJob extends Readonly<Record<CountKey, number>> {
  /** "" where none is stated: then the file is the job. */
  readonly jobNumber: string;
  readonly jobName: string;
  readonly file: string;
  readonly date: string | null;
  readonly designCfm: Cfm;
  readonly measuredCfm: Cfm;
}

/** Something that an earlier roll-up found wanting, in the words of its summary. */
export interface EarlierFinding {
  readonly file: string;
  /** As `placeOf` spells it: a sheet, or a cell with its sheet. */
  readonly place: string;
  /** What is wrong and what to do. */
  readonly text: string;
  /** Whether a workbook, a list or an outlet was left out for it. */
  readonly isProblem: boolean;
}

/** An earlier roll-up, as far as its file tells it. */
export interface EarlierRollUp {
  readonly jobs: readonly EarlierJob[];
  readonly findings: readonly EarlierFinding[];
}

/** What a later run can tell a job by. */
export function earlierJob(job: JobResult): EarlierJob {
  const { jobNumber, jobName, file, date, designCfm, measuredCfm } = job;
  const counts = Object.fromEntries(COMPARED_COUNTS.map(([key]) => [key, job[key]])) as Record<CountKey, number>;
  return { jobNumber, jobName, file, date, designCfm, measuredCfm, ...counts };
}

/** A finding as a later run reads it; an older workbook of a job is none, it is as it should be. */
export function earlierFindings(findings: readonly Finding[]): readonly EarlierFinding[] {
  return findings
    .filter(({ kind }) => kind !== "superseded")
    .map((finding) => ({
      file: finding.file,
      place: placeOf(finding),
      text: sentencesOf(finding),
      isProblem: finding.severity === "error",
    }));
}
