import type { Finding } from "../../finding.js";
import type { RollUp } from "../roll-up.js";
import {
  COMPARED_COUNTS,
  type EarlierFinding,
  type EarlierJob,
  type EarlierRollUp,
  earlierFindings,
  earlierJob,
} from "./earlier-roll-up.js";

/** A job that is in both roll-ups and is not what it was. */
export interface ChangedJob {
  readonly job: EarlierJob;
  /** What changed, from what to what. */
  readonly changes: readonly string[];
}

/** What is different from an earlier roll-up. */
export interface RollUpChanges {
  readonly newJobs: readonly EarlierJob[];
  readonly changedJobs: readonly ChangedJob[];
  readonly goneJobs: readonly EarlierJob[];
  /** Something is left out for them now, and they were not found before. */
  readonly newProblems: readonly EarlierFinding[];
  /** They were found before, and are not found any more. */
  readonly goneProblems: readonly EarlierFinding[];
  /** Whether somebody has to look: a new problem, or a job that is gone. */
  readonly isNewProblem: boolean;
}

/** An airflow that went through another unit differs by less. Chosen by us. */
const ROUNDING = 1e-9;

/**
 * Says what is new, changed and gone since an earlier roll-up.
 *
 * A job is known by its number, without one by its file. A problem is known by its file, sheet and words, wherever on the
 * sheet it is, so that an inserted row makes no new one.
 */
export function compareRollUps(
  earlier: EarlierRollUp,
  { jobs }: Pick<RollUp, "jobs">,
  findings: readonly Finding[],
): RollUpChanges {
  const before = new Map(earlier.jobs.map((job) => [keyOf(job), job]));
  const now = new Map(jobs.map((job) => [keyOf(job), earlierJob(job)]));
  const found = earlierFindings(findings);
  const newProblems = without(found, earlier.findings).filter(({ isProblem }) => isProblem);
  const goneJobs = [...before].flatMap(([key, job]) => (now.has(key) ? [] : [job]));
  return {
    newJobs: [...now].flatMap(([key, job]) => (before.has(key) ? [] : [job])),
    changedJobs: [...now].flatMap(([key, job]) => {
      const was = before.get(key);
      const changes = was === undefined ? [] : changesOf(was, job);
      return changes.length === 0 ? [] : [{ job, changes }];
    }),
    goneJobs,
    newProblems,
    goneProblems: without(earlier.findings, found).filter(({ isProblem }) => isProblem),
    isNewProblem: newProblems.length + goneJobs.length > 0,
  };
}

function keyOf({ jobNumber, file }: Pick<EarlierJob, "jobNumber" | "file">): string {
  return jobNumber === "" ? `file ${file}` : `number ${jobNumber.toLowerCase()}`;
}

function changesOf(was: EarlierJob, is: EarlierJob): readonly string[] {
  const counts = COMPARED_COUNTS.flatMap(([key, word]) =>
    was[key] === is[key] ? [] : [`${word} ${was[key]} → ${is[key]}`],
  );
  const flow = (word: string, from: number, to: number) =>
    Math.abs(from - to) <= ROUNDING * Math.max(Math.abs(from), Math.abs(to))
      ? []
      : [`${word} ${shownFlow(from, to)} → ${shownFlow(to, from)} cfm`];
  return [
    ...(was.date === is.date ? [] : [`date ${was.date ?? "none"} → ${is.date ?? "none"}`]),
    ...counts,
    ...flow("design", was.designCfm, is.designCfm),
    ...flow("measured", was.measuredCfm, is.measuredCfm),
    ...(was.file === is.file ? [] : [`workbook ${was.file} → ${is.file}`]),
  ];
}

/** With so many digits that the two differ to the eye. */
function shownFlow(flowCfm: number, otherCfm: number): string {
  return Math.abs(flowCfm - otherCfm) >= 1 ? flowCfm.toFixed(0) : String(Number(flowCfm.toPrecision(9)));
}

/** Those of the first that the second has not, each as often as it is there once more. */
function without(some: readonly EarlierFinding[], others: readonly EarlierFinding[]): readonly EarlierFinding[] {
  const left = new Map<string, number>();
  for (const other of others) left.set(sameKey(other), (left.get(sameKey(other)) ?? 0) + 1);
  return some.filter((one) => {
    const count = left.get(sameKey(one)) ?? 0;
    left.set(sameKey(one), count - 1);
    return count <= 0;
  });
}

function sameKey({ file, place, text }: EarlierFinding): string {
  const end = place.lastIndexOf("!");
  return [file, end < 0 ? place : place.slice(0, end), text].join("\n");
}
