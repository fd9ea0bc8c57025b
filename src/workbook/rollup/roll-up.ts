import { type Finding, findingOf } from "../finding.js";
import { chooseNewest, jobKey } from "./choose-newest.js";
import { type GroupResult, groupResult } from "./group-result.js";
import { calibrationFindings, type InstrumentResult, instrumentResults } from "./instruments.js";
import { groupedBy, type JobFigures, type JobPart } from "./job-figures.js";
import { EVERY_JOB, filteredJobs, type JobFilter } from "./job-filter.js";
import { type NameRule, type NameVariant, nameVariants, renamedFigures } from "./names.js";
import { mergedTally } from "./tally.js";
import { type TrendResult, trendResults } from "./trend.js";
import { type VisitedJob, visitedJobs } from "./visits.js";

/** One job, from the newest of its workbooks. */
export interface JobResult extends GroupResult {
  readonly file: string;
  readonly jobNumber: string;
  readonly jobName: string;
  /** The latest day of its outlets, ISO 8601. */
  readonly date: string | null;
  readonly technicians: readonly string[];
  readonly customer: string;
  readonly site: string;
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
  readonly instruments: readonly InstrumentResult[];
  readonly trend: readonly TrendResult[];
  readonly visits: readonly VisitedJob[];
  /** Names that look alike, and those that the manager's table merges. */
  readonly names: readonly NameVariant[];
  readonly total: GroupResult;
  /** Jobs that count, but are not among those that were asked for. */
  readonly filteredOut: number;
}

/** How jobs are rolled up. */
export interface RollUpSettings {
  /** The day of the roll-up, ISO 8601; null where nobody knows it, then no date is doubted. */
  readonly today: string | null;
  /** How long a calibration holds. */
  readonly calibrationMonths: number;
  /** The manager's table of names. */
  readonly names: readonly NameRule[];
}

/** A year, as is usual for meters: common practice, no source. */
export const USUAL_CALIBRATION_MONTHS = 12;

/** Nothing that depends on the day or on the office. */
export const USUAL_SETTINGS: RollUpSettings = { today: null, calibrationMonths: USUAL_CALIBRATION_MONTHS, names: [] };

/** It may be tomorrow already where the readings were taken. */
function lastDayOf({ today }: RollUpSettings): string | null {
  if (today === null) return null;
  const next = new Date(`${today}T00:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return next.toISOString().slice(0, 10);
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
  settings: RollUpSettings = USUAL_SETTINGS,
): {
  readonly value: RollUp;
  readonly findings: readonly Finding[];
} {
  const { value: chosen, findings } = chooseNewest(inOrderOf(figures), lastDayOf(settings));
  const counted = renamedFigures(chosen, settings.names);
  const kept = filteredJobs(counted, filter);
  const jobs = [...kept].sort((one, other) => byName(one.jobNumber, other.jobNumber) || byName(one.file, other.file));
  const parts = jobs.flatMap((job) => job.parts.map((part) => ({ ...part, job })));
  const value: RollUp = {
    jobs: jobs.map(jobResult),
    systems: jobs.flatMap(systemResults),
    technicians: groups(parts, ({ technician }) => technician),
    months: groups(parts, ({ date }) => (date ?? "").slice(0, 7)),
    kinds: groups(parts, ({ kind }) => kind ?? ""),
    instruments: instrumentResults(parts, settings.calibrationMonths).toSorted(
      (one, other) => byName(one.serial, other.serial) || byName(one.instrument, other.instrument),
    ),
    trend: trendResults(parts, byName),
    visits: visitsOf(jobs, renamedFigures(figures, settings.names), filter),
    names: nameVariants(chosen, settings.names),
    total: resultOf(parts),
    filteredOut: counted.length - kept.length,
  };
  return {
    value,
    findings: [...findings, ...unnumbered(jobs), ...calibrationFindings(jobs, settings.calibrationMonths)],
  };
}

/** The other workbooks of each job, by its technician where one is asked for, on whatever day. */
function visitsOf(
  jobs: readonly JobFigures[],
  figures: readonly JobFigures[],
  filter: JobFilter,
): readonly VisitedJob[] {
  const ofTechnician = filteredJobs(figures, { ...EVERY_JOB, technician: filter.technician });
  const byKey = groupedBy(ofTechnician, jobKey);
  return visitedJobs(jobs, (job) => byKey.get(jobKey(job)) ?? []);
}

/** Returns, of the figures of all workbooks, those that count. */
export function chosenOf(figures: readonly JobFigures[], settings: RollUpSettings): readonly JobFigures[] {
  return chooseNewest(inOrderOf(figures), lastDayOf(settings)).value;
}

/** The order in which workbooks come in changes no result. */
function inOrderOf(figures: readonly JobFigures[]): readonly JobFigures[] {
  return figures.toSorted((one, other) => compared(one.file, other.file) || compared(one.jobNumber, other.jobNumber));
}

function compared(one: string, other: string): number {
  return one === other ? 0 : one < other ? -1 : 1;
}

/** As a person sorts: 2 before 10, and no matter of capitals. */
const byName = new Intl.Collator("en", { numeric: true, sensitivity: "base" }).compare;

function resultOf(parts: readonly JobPart[]): GroupResult {
  return groupResult(mergedTally(parts.map(({ tally }) => tally)));
}

function jobResult(job: JobFigures): JobResult {
  const { file, jobNumber, jobName, date, customer, site, units, parts } = job;
  const technicians = [...groupedBy(parts, ({ technician }) => technician.toLowerCase()).values()].flatMap(([first]) =>
    first === undefined || first.technician === "" ? [] : [first.technician],
  );
  return { file, jobNumber, jobName, date, customer, site, units, technicians, ...resultOf(parts) };
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
