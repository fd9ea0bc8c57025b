import { median } from "../core/index.js";
import { isFilledRow } from "./data-row.js";
import type { VelocityRange } from "./find-velocity.js";
import { numberAndUnit } from "./log-columns.js";
import { LOG_LIMITS, LogProblem } from "./log-limits.js";
import { type DecimalMark, logNumber } from "./log-number.js";
import type { LogRow } from "./log-rows.js";
import { shortened } from "./shortened.js";
import { readTime, SECONDS_PER_DAY, type TimeFormat } from "./time-format.js";
import { fpmFromUnit, type VelocityUnitName } from "./velocity-unit.js";

/** One velocity that was read. */
export interface LogReading {
  /** Seconds after the first row. */
  readonly seconds: number;
  readonly velocityFpm: number;
  /** Row of the file, from 1. */
  readonly row: number;
}

export type NotReadingKind =
  | "blank"
  | "status"
  | "beyond limit"
  | "out of range"
  | "other unit"
  | "no time"
  | "time runs back";

/** A row that is never taken as a number. */
export interface NotReading {
  readonly row: number;
  /** Null where its time cannot be read. */
  readonly seconds: number | null;
  readonly kind: NotReadingKind;
  /** The field as the file has it, cut short where it is long. */
  readonly text: string;
}

/** The readings of one channel of a log in the order of time. */
export interface LogSeries {
  readonly readings: readonly LogReading[];
  readonly notReadings: readonly NotReading[];
  /** Seconds after the first row of every row whose time was read, whatever its velocity. */
  readonly rowSeconds: readonly number[];
  /** The first time as the file has it. */
  readonly startText: string;
  /** Seconds from midnight, or from 1970, of the first row; what a time of day is compared with. */
  readonly startsAt: number;
  /** Median of the intervals between rows; null below two different times. */
  readonly usualIntervalSeconds: number | null;
  /** How often the clock passed midnight. */
  readonly midnights: number;
}

export interface SeriesForm {
  readonly firstRow: number;
  /** One column, or a date and a time of day. */
  readonly timeIndexes: readonly number[];
  readonly format: TimeFormat;
  /** A column for each channel. */
  readonly velocityIndexes: readonly number[];
  readonly decimal: DecimalMark;
  readonly unit: VelocityUnitName;
  readonly range: VelocityRange;
}

/** The channels of a log, and how many rows of data it has. */
export interface LogSeriesRead {
  readonly channels: readonly LogSeries[];
  readonly rowCount: number;
}

type TakenField = { readonly velocity: number } | { readonly kind: NotReadingKind };

function takenField(field: string, { decimal, unit, range }: SeriesForm): TakenField {
  if (field === "") return { kind: "blank" };
  if (/^[<>≤≥]/.test(field)) return { kind: "beyond limit" };
  const plain = logNumber(field, decimal);
  const written = plain === null ? numberAndUnit(field) : null;
  const velocity = plain ?? logNumber(written?.number ?? "", decimal);
  if (velocity === null) return { kind: "status" };
  if (written !== null && written.unit !== null && written.unit !== unit) return { kind: "other unit" };
  return velocity < range.low || velocity > range.high ? { kind: "out of range" } : { velocity };
}

/** A clock that falls back by more than this has passed midnight; by less, it was set back or the rows are mixed up. */
const HALF_A_DAY = SECONDS_PER_DAY / 2;

function usualInterval(rowSeconds: readonly number[]): number | null {
  const intervals: number[] = [];
  for (let index = 1; index < rowSeconds.length; index += 1) {
    const interval = (rowSeconds[index] as number) - (rowSeconds[index - 1] as number);
    if (interval > 0) intervals.push(interval);
  }
  return intervals.length === 0 ? null : median(intervals);
}

/** Keeps one text for all fields that read alike: a piece of a text would keep the whole text in memory. */
function makeTextKeeper(): (text: string) => string {
  const kept = new Map<string, string>();
  return (text) => {
    const known = kept.get(text);
    if (known !== undefined) return known;
    const own = Array.from(shortened(text)).join("");
    if (kept.size < 10_000) kept.set(own, own);
    return own;
  };
}

/** The time of a row as it stands in its one or two columns. */
function timeTextOf(fields: LogRow, timeIndexes: readonly number[]): string {
  if (timeIndexes.length === 1) return fields[timeIndexes[0] as number]?.trim() ?? "";
  return timeIndexes.map((at) => fields[at]?.trim() ?? "").join(" ");
}

/**
 * Reads the rows of a log one by one; whatever is no reading is listed with its reason and never counted as a number.
 *
 * @throws {LogProblem} When there are more rows than any log has, or one of them is longer
 */
export function logSeries(rows: Iterable<LogRow>, form: SeriesForm): LogSeriesRead {
  const channels = form.velocityIndexes.map((at) => ({ at, readings: [] as LogReading[], not: [] as NotReading[] }));
  const keep = makeTextKeeper();
  const rowSeconds: number[] = [];
  let start: { readonly at: number; readonly text: string } | null = null;
  let midnights = 0;
  let last = Number.NEGATIVE_INFINITY;
  let row = 0;
  let rowCount = 0;
  const number = (text: string) => logNumber(text, form.decimal);
  const leaveOut = (seconds: number | null, kind: NotReadingKind, text: string) => {
    for (const { not } of channels) not.push({ row, seconds, kind, text: keep(text) });
  };
  for (const fields of rows) {
    row += 1;
    if (row <= form.firstRow || !isFilledRow(fields)) continue;
    rowCount += 1;
    if (rowCount > LOG_LIMITS.rows) throw tooManyRows();
    const timeText = timeTextOf(fields, form.timeIndexes);
    const read = readTime(timeText, form.format, number);
    if (read === null) {
      leaveOut(null, "no time", timeText);
      continue;
    }
    if (form.format === "clock" && last - (read + midnights * SECONDS_PER_DAY) > HALF_A_DAY) midnights += 1;
    const at = form.format === "clock" ? read + midnights * SECONDS_PER_DAY : read;
    start ??= { at, text: keep(timeText) };
    const seconds = at - start.at;
    if (at < last) {
      leaveOut(seconds, "time runs back", timeText);
      continue;
    }
    last = at;
    rowSeconds.push(seconds);
    for (const { at: column, readings, not } of channels) {
      const field = fields[column]?.trim() ?? "";
      const taken = takenField(field, form);
      if ("kind" in taken) not.push({ row, seconds, kind: taken.kind, text: keep(field) });
      else readings.push({ seconds, velocityFpm: fpmFromUnit(taken.velocity, form.unit), row });
    }
  }
  const common = {
    rowSeconds,
    startText: start?.text ?? "",
    startsAt: start?.at ?? 0,
    usualIntervalSeconds: usualInterval(rowSeconds),
    midnights,
  };
  return { channels: channels.map(({ readings, not }) => ({ readings, notReadings: not, ...common })), rowCount };
}

/** Counts the rows of data without reading them. */
export function countRows(rows: Iterable<LogRow>, firstRow: number): number {
  let row = 0;
  let count = 0;
  for (const fields of rows) {
    row += 1;
    if (row > firstRow && isFilledRow(fields)) count += 1;
    if (count > LOG_LIMITS.rows) throw tooManyRows();
  }
  return count;
}

function tooManyRows(): LogProblem {
  return new LogProblem(`The log has more than ${LOG_LIMITS.rows.toLocaleString("en")} rows. Cut it into pieces.`);
}
