import { availableParallelism } from "node:os";
import type { UnitSystemName } from "../core/index.js";
import {
  type JobFilter,
  type NameRule,
  type RollUpSettings,
  USUAL_CALIBRATION_MONTHS,
} from "../workbook/rollup/index.js";
import { type Arguments, UsageError } from "./command.js";
import { type OutputFile, outputFile, requireEnding, WORKBOOK_ENDING } from "./output-file.js";

/** More threads than this wait for the disk. */
const MOST_WORKERS = 8;

/** A job's workbook takes a hundredth of a second; one that takes so long asks for what nobody needs. Chosen by us. */
const MOST_SECONDS = 60;

/** Where a roll-up writes to. */
export interface Outputs {
  readonly summary: OutputFile;
  readonly part: OutputFile | undefined;
  readonly csv: OutputFile | undefined;
  readonly parquet: OutputFile | undefined;
}

export function outputs(args: Arguments): Outputs {
  const summary = outputFile(args);
  if (summary === undefined) throw new UsageError("-o SUMMARY.xlsx is missing.");
  requireEnding(summary.path, WORKBOOK_ENDING);
  const table = (option: "csv" | "parquet"): OutputFile | undefined => {
    const path = args.options[option];
    if (typeof path !== "string") return undefined;
    requireEnding(path, `.${option}`);
    return { path, existing: summary.existing };
  };
  const folder = args.options["part"];
  const part = typeof folder === "string" ? { path: folder, existing: summary.existing } : undefined;
  return { summary, part, csv: table("csv"), parquet: table("parquet") };
}

export function unitsOf({ options }: Arguments): UnitSystemName {
  const units = options["units"] ?? "ip";
  if (units === "ip" || units === "si") return units;
  throw new UsageError("--units takes ip or si.");
}

export function workersOf({ options }: Arguments): number {
  const given = options["workers"];
  if (given === undefined) return Math.min(availableParallelism(), MOST_WORKERS);
  const workers = Number(given);
  if (Number.isInteger(workers) && workers >= 1 && workers <= 64) return workers;
  throw new UsageError("--workers takes a whole number from 1 to 64.");
}

export function mostSecondsOf({ options }: Arguments): number {
  const given = options["seconds"];
  if (given === undefined) return MOST_SECONDS;
  const seconds = Number(given);
  if (seconds > 0 && seconds <= 86_400) return seconds;
  throw new UsageError("--seconds takes a number above 0, up to 86400.");
}

const DAY = /^\d{4}-\d{2}-\d{2}$/;

function dayOf({ options }: Arguments, option: "since" | "until"): string | null {
  const day = options[option];
  if (typeof day !== "string") return null;
  const moment = new Date(`${day}T00:00:00Z`);
  if (DAY.test(day) && !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(day)) return day;
  throw new UsageError(`--${option} takes a day such as 2026-03-31, not “${day}”.`);
}

export function filterOf(args: Arguments): JobFilter {
  const text = (option: string) => {
    const given = args.options[option];
    return typeof given === "string" ? given : null;
  };
  const filter = {
    since: dayOf(args, "since"),
    until: dayOf(args, "until"),
    technician: text("technician"),
    job: text("job"),
    customer: text("customer"),
    site: text("site"),
  };
  if (filter.since !== null && filter.until !== null && filter.since > filter.until) {
    throw new UsageError(`--since ${filter.since} is later than --until ${filter.until}.`);
  }
  return filter;
}

/** The manager's table of names, where one is named. */
export async function namesOf({ options }: Arguments): Promise<readonly NameRule[]> {
  const path = options["names"];
  if (typeof path !== "string") return [];
  const { readNames } = await import("../hosts/file/rollup/read-names.js");
  return readNames(path);
}

export function settingsOf({ options }: Arguments): Omit<RollUpSettings, "names"> {
  const given = options["calibration-months"];
  const calibrationMonths = given === undefined ? USUAL_CALIBRATION_MONTHS : Number(given);
  if (Number.isInteger(calibrationMonths) && calibrationMonths >= 1 && calibrationMonths <= 120) {
    return { today: today(), calibrationMonths };
  }
  throw new UsageError("--calibration-months takes a whole number from 1 to 120.");
}

/** The day here, ISO 8601. */
export function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
