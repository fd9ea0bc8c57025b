import type { VelocityRange } from "./find-velocity.js";
import { numberAndUnit } from "./log-columns.js";
import { type DecimalMark, logNumber } from "./log-number.js";
import type { LogRow } from "./log-table.js";
import { median } from "./median.js";
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
  /** The field as it stands in the file. */
  readonly text: string;
}

/** The readings of a log in the order of time. */
export interface LogSeries {
  readonly readings: readonly LogReading[];
  readonly notReadings: readonly NotReading[];
  /** Seconds after the first row of every row whose time was read, whatever its velocity. */
  readonly rowSeconds: readonly number[];
  /** The first time as it stands in the file. */
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
  readonly velocityIndex: number;
  readonly decimal: DecimalMark;
  readonly unit: VelocityUnitName;
  readonly range: VelocityRange;
}

type TakenField = { readonly velocity: number } | { readonly kind: NotReadingKind };

function takenField(field: string, { decimal, unit, range }: SeriesForm): TakenField {
  if (field === "") return { kind: "blank" };
  if (/^[<>≤≥]/.test(field)) return { kind: "beyond limit" };
  const written = numberAndUnit(field);
  const velocity = logNumber(written.number, decimal);
  if (velocity === null) return { kind: "status" };
  if (written.unit !== null && written.unit !== unit) return { kind: "other unit" };
  return velocity < range.low || velocity > range.high ? { kind: "out of range" } : { velocity };
}

/** A clock that falls back by more than this has passed midnight; by less, it was set back or the rows are mixed up. */
const HALF_A_DAY = SECONDS_PER_DAY / 2;

function usualInterval(rowSeconds: readonly number[]): number | null {
  const intervals = rowSeconds.flatMap((seconds, index) => {
    const interval = seconds - (rowSeconds[index - 1] ?? seconds);
    return interval > 0 ? [interval] : [];
  });
  return intervals.length === 0 ? null : median(intervals);
}

/** Reads the rows of a log one by one; whatever is no reading is listed with its reason and never counted as a number. */
export function logSeries(rows: readonly LogRow[], form: SeriesForm): LogSeries {
  const readings: LogReading[] = [];
  const notReadings: NotReading[] = [];
  const rowSeconds: number[] = [];
  let start: { readonly at: number; readonly text: string } | null = null;
  let midnights = 0;
  let last = Number.NEGATIVE_INFINITY;
  const number = (text: string) => logNumber(text, form.decimal);
  for (let index = form.firstRow; index < rows.length; index += 1) {
    const fields = rows[index] ?? [];
    if (fields.every((field) => field.trim() === "")) continue;
    const row = index + 1;
    const timeText = form.timeIndexes.map((at) => fields[at]?.trim() ?? "").join(" ");
    const field = fields[form.velocityIndex]?.trim() ?? "";
    const read = readTime(timeText, form.format, number);
    if (read === null) {
      notReadings.push({ row, seconds: null, kind: "no time", text: timeText });
      continue;
    }
    if (form.format === "clock" && last - (read + midnights * SECONDS_PER_DAY) > HALF_A_DAY) midnights += 1;
    const at = form.format === "clock" ? read + midnights * SECONDS_PER_DAY : read;
    start ??= { at, text: timeText };
    const seconds = at - start.at;
    if (at < last) {
      notReadings.push({ row, seconds, kind: "time runs back", text: timeText });
      continue;
    }
    last = at;
    rowSeconds.push(seconds);
    const taken = takenField(field, form);
    if ("kind" in taken) notReadings.push({ row, seconds, kind: taken.kind, text: field });
    else readings.push({ seconds, velocityFpm: fpmFromUnit(taken.velocity, form.unit), row });
  }
  return {
    readings,
    notReadings,
    rowSeconds,
    startText: start?.text ?? "",
    startsAt: start?.at ?? 0,
    usualIntervalSeconds: usualInterval(rowSeconds),
    midnights,
  };
}
