import { type Finding, findingOf } from "../finding.js";
import { type GroupResult, groupResult } from "./group-result.js";
import { groupedBy, type JobFigures, type JobPart } from "./job-figures.js";
import { mergedTally } from "./tally.js";

/** How the calibration of a meter stood on the day of the readings. */
export type CalibrationState = "valid" | "expired" | "later than the readings" | "not stated";

/** What one meter measured over all jobs. */
export interface InstrumentResult extends GroupResult {
  /** As the jobs state it; the first by name where they differ. "" where none does. */
  readonly instrument: string;
  readonly serial: string;
  readonly jobs: number;
  /** The days of its calibrations that jobs state, ISO 8601. */
  readonly calibrations: readonly string[];
  /** The days on which jobs say that its calibration is due, ISO 8601. */
  readonly dueDays: readonly string[];
  /** The first and the last day of its readings. */
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  /** How many jobs were measured in each state of its calibration. */
  readonly jobsByState: Readonly<Record<CalibrationState, number>>;
}

interface MeasuredPart extends JobPart {
  readonly job: JobFigures;
}

/** A day so many months later, ISO 8601; the last of the month where that is shorter. */
export function dayAfterMonths(day: string, months: number): string {
  const [year = 0, month = 1, date = 1] = day.split("-").map(Number);
  const last = new Date(Date.UTC(year, month - 1 + months + 1, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(date, last))).toISOString().slice(0, 10);
}

/** What a job states of the calibration of its meter, each day ISO 8601. */
type StatedCalibration = Pick<JobPart, "calibratedOn" | "calibrationDueOn" | "date">;

/**
 * Says how a calibration stood on the day of the readings: by the day on which it is due, and by its age where no such
 * day is stated.
 */
export function calibrationState(
  { calibratedOn, calibrationDueOn, date }: StatedCalibration,
  months: number,
): CalibrationState {
  if ((calibratedOn === null && calibrationDueOn === null) || date === null) return "not stated";
  if (calibratedOn !== null && calibratedOn > date) return "later than the readings";
  const lastDay = calibrationDueOn ?? dayAfterMonths(calibratedOn ?? date, months);
  return date > lastDay ? "expired" : "valid";
}

/** A meter is known by its serial number, without one by its name. */
const keyOf = ({ instrument, instrumentSerial }: JobPart) => (instrumentSerial || instrument).toLowerCase();

/** The worst of a job's days, since one reading out of date is enough. */
const WORST_FIRST: readonly CalibrationState[] = ["expired", "later than the readings", "not stated", "valid"];

function stateOfJob(parts: readonly MeasuredPart[], months: number): CalibrationState {
  const states = new Set(parts.map((part) => calibrationState(part, months)));
  return WORST_FIRST.find((state) => states.has(state)) ?? "not stated";
}

/** What each meter measured, and whether its calibration held on the days of the readings. */
export function instrumentResults(
  parts: readonly MeasuredPart[],
  calibrationMonths: number,
): readonly InstrumentResult[] {
  return [...groupedBy(parts, keyOf).values()].map((alike) => {
    const days = alike.flatMap(({ date }) => (date === null ? [] : [date])).toSorted();
    const byJob = [...groupedBy(alike, ({ job }) => job.file + job.jobNumber).values()];
    const jobsByState = { valid: 0, expired: 0, "later than the readings": 0, "not stated": 0 };
    for (const ofJob of byJob) jobsByState[stateOfJob(ofJob, calibrationMonths)] += 1;
    const names = alike.map(({ instrument }) => instrument).filter((name) => name !== "");
    const calibrations = alike.flatMap(({ calibratedOn }) => (calibratedOn === null ? [] : [calibratedOn]));
    const due = alike.flatMap(({ calibrationDueOn }) => calibrationDueOn ?? []);
    return {
      instrument: names.toSorted()[0] ?? "",
      serial: alike[0]?.instrumentSerial ?? "",
      jobs: byJob.length,
      calibrations: [...new Set(calibrations)].toSorted(),
      dueDays: [...new Set(due)].toSorted(),
      firstDay: days[0] ?? null,
      lastDay: days.at(-1) ?? null,
      jobsByState,
      ...groupResult(mergedTally(alike.map(({ tally }) => tally))),
    };
  });
}

function expiredText(late: JobPart, calibrationMonths: number): string {
  const { instrument, instrumentSerial, calibratedOn, calibrationDueOn, date } = late;
  const meter = [instrument, instrumentSerial].filter((part) => part !== "").join(", ") || "the meter";
  if (calibratedOn !== null && calibratedOn > (date ?? "")) {
    return `The calibration of ${meter} is of ${calibratedOn}, after the readings of ${date}.`;
  }
  if (calibrationDueOn !== null) {
    return `The calibration of ${meter} was due on ${calibrationDueOn} and had expired on ${date}.`;
  }
  return `The calibration of ${meter} of ${calibratedOn} had expired on ${date}: it holds ${calibrationMonths} months.`;
}

/** Names the jobs that were measured with a meter out of calibration. */
export function calibrationFindings(jobs: readonly JobFigures[], calibrationMonths: number): readonly Finding[] {
  return jobs.flatMap((job) => {
    const late = job.parts.find((part) =>
      ["expired", "later than the readings"].includes(calibrationState(part, calibrationMonths)),
    );
    if (late === undefined) return [];
    const problem = expiredText(late, calibrationMonths);
    return [
      findingOf(job.file, "calibration", "nothing", problem, "State the calibration that held, or measure anew."),
    ];
  });
}
