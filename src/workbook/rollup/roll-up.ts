import { type Finding, findingOf } from "../finding.js";
import { chooseNewest } from "./choose-newest.js";
import { type GroupResult, groupResult } from "./group-result.js";
import { groupedBy, type JobFigures, type JobPart } from "./job-figures.js";
import { EVERY_JOB, filteredJobs, type JobFilter } from "./job-filter.js";
import { EMPTY_TALLY, mergeTallies } from "./tally.js";

/** One job, from the newest of its workbooks. */
export interface JobResult extends GroupResult {
  readonly file: string;
  readonly jobNumber: string;
  readonly jobName: string;
  /** The latest day of its outlets, ISO 8601. */
  readonly date: string | null;
  readonly technicians: readonly string[];
  readonly units: JobFigures["units"];
}

/** The outlets of all jobs that share something: a technician, a month or a kind. */
export interface GroupOfJobs extends GroupResult {
  /** "" where the outlets do not say. */
  readonly name: string;
  readonly jobs: number;
}

/** The outlets of one system of one job: the same name in another job is another system. */
export interface SystemResult extends GroupResult {
  readonly file: string;
  readonly jobNumber: string;
  readonly jobName: string;
  /** "" where the outlets do not say. */
  readonly system: string;
}

/** What many jobs come to. */
export interface RollUp {
  readonly jobs: readonly JobResult[];
  readonly systems: readonly SystemResult[];
  readonly technicians: readonly GroupOfJobs[];
  readonly months: readonly GroupOfJobs[];
  readonly kinds: readonly GroupOfJobs[];
  readonly total: GroupResult;
  /** Jobs that count, but are not among those that were asked for. */
  readonly filteredOut: number;
}

/**
 * Rolls jobs up: each job once, by its newest workbook, then by technician, by month and by kind of outlet.
 *
 * @param figures - Of every workbook that was read, in any order; the order changes no result
 * @param filter - Which of the jobs to roll up; the newest workbook of each is chosen before
 * @returns The roll-up, and the workbooks that a newer one of the same job replaces
 */
export function rollUp(
  figures: readonly JobFigures[],
  filter: JobFilter = EVERY_JOB,
): {
  readonly value: RollUp;
  readonly findings: readonly Finding[];
} {
  const inOrder = [...figures].sort(
    (one, other) => compared(one.file, other.file) || compared(one.jobNumber, other.jobNumber),
  );
  const { value: counted, findings } = chooseNewest(inOrder);
  const kept = filteredJobs(counted, filter);
  const jobs = [...kept].sort((one, other) => byName(one.jobNumber, other.jobNumber) || byName(one.file, other.file));
  const parts = jobs.flatMap((job) => job.parts.map((part) => ({ ...part, job })));
  const value: RollUp = {
    jobs: jobs.map(jobResult),
    systems: jobs.flatMap(systemResults),
    technicians: groups(parts, ({ technician }) => technician),
    months: groups(parts, ({ month }) => month),
    kinds: groups(parts, ({ kind }) => kind ?? ""),
    total: resultOf(parts),
    filteredOut: counted.length - kept.length,
  };
  return { value, findings: [...findings, ...unnumbered(jobs)] };
}

function compared(one: string, other: string): number {
  return one === other ? 0 : one < other ? -1 : 1;
}

/** As a person sorts: 2 before 10, and no matter of capitals. */
const byName = new Intl.Collator("en", { numeric: true, sensitivity: "base" }).compare;

function resultOf(parts: readonly JobPart[]): GroupResult {
  return groupResult(parts.map(({ tally }) => tally).reduce(mergeTallies, EMPTY_TALLY));
}

function jobResult({ file, jobNumber, jobName, date, units, parts }: JobFigures): JobResult {
  const technicians = [...groupedBy(parts, ({ technician }) => technician.toLowerCase()).values()].flatMap(([first]) =>
    first === undefined || first.technician === "" ? [] : [first.technician],
  );
  return { file, jobNumber, jobName, date, units, technicians, ...resultOf(parts) };
}

function systemResults({ file, jobNumber, jobName, parts }: JobFigures): readonly SystemResult[] {
  return [...groupedBy(parts, ({ system }) => system.toLowerCase()).values()]
    .map((alike) => ({ file, jobNumber, jobName, system: alike[0]?.system ?? "", ...resultOf(alike) }))
    .sort((one, other) => byName(one.system, other.system));
}

function groups(
  parts: readonly (JobPart & { readonly job: JobFigures })[],
  nameOf: (part: JobPart) => string,
): readonly GroupOfJobs[] {
  return [...groupedBy(parts, (part) => nameOf(part).toLowerCase()).values()]
    .map((alike) => ({
      name: alike[0] === undefined ? "" : nameOf(alike[0]),
      jobs: new Set(alike.map(({ job }) => job)).size,
      ...resultOf(alike),
    }))
    .sort((one, other) => byName(one.name, other.name));
}

function unnumbered(jobs: readonly JobFigures[]): readonly Finding[] {
  return jobs
    .filter(({ jobNumber }) => jobNumber === "")
    .map(({ file }) =>
      findingOf(
        file,
        "no-job-number",
        "nothing",
        "It states no job number and counts as a job of its own.",
        "Give it its number, so that a later revision is known.",
      ),
    );
}
