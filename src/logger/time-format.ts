import type { AnswerChoice } from "./log-answer.js";
import { LOG_LIMITS } from "./log-limits.js";

/** How the times of a log are written. */
export const TIME_FORMATS = [
  { value: "ymd", label: "date, year first, with the time of day" },
  { value: "dmy", label: "date, day first, with the time of day" },
  { value: "mdy", label: "date, month first, with the time of day" },
  { value: "clock", label: "time of day, h:mm or h:mm:ss" },
  { value: "m:ss", label: "elapsed time, m:ss" },
  { value: "h", label: "elapsed hours" },
  { value: "min", label: "elapsed minutes" },
  { value: "s", label: "elapsed seconds" },
  { value: "ms", label: "elapsed milliseconds" },
] as const satisfies readonly AnswerChoice[];

export type TimeFormat = (typeof TIME_FORMATS)[number]["value"];

/** Hours, minutes and seconds of a whole day. */
export const SECONDS_PER_DAY = 86_400;

export const ELAPSED_SECONDS = { h: 3600, min: 60, s: 1, ms: 0.001 } as const;

/** Thirty thousand years: beyond it a number is no time that anybody logged. */
const MOST_SECONDS = 1e12;

const CLOCK = String.raw`(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)?\s*(?:([ap])\.?\s*m\.?)?`;
const CLOCK_ONLY = new RegExp(`^${CLOCK}$`, "i");
const YEAR_FIRST = new RegExp(
  String.raw`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T\s]+${CLOCK})?\s*(Z|[+-]\d{2}:?\d{2})?$`,
  "i",
);
const YEAR_LAST = new RegExp(String.raw`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?:[,\s]+${CLOCK})?$`, "i");
const MINUTES_AND_SECONDS = /^(\d{1,4}):(\d{2})(?:[.,](\d{1,9}))?$/;

type Parts = readonly (string | undefined)[];

function clockSeconds([hours, minutes, seconds, fraction, half]: Parts): number | null {
  if (hours === undefined) return 0;
  const hour = Number(hours);
  const second = Number(seconds ?? 0);
  if (Number(minutes) > 59 || second > 60 || hour > 24) return null;
  if (half !== undefined && (hour < 1 || hour > 12)) return null;
  const ofDay = half === undefined ? hour : (hour % 12) + (half.toLowerCase() === "p" ? 12 : 0);
  return ofDay * 3600 + Number(minutes) * 60 + second + Number(`0.${fraction ?? 0}`);
}

function daySeconds(year: number, month: number, day: number): number | null {
  const at = new Date(Date.UTC(year, month - 1, day));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at.getTime() / 1000 : null;
}

function together(day: number | null, clock: number | null): number | null {
  return day === null || clock === null ? null : day + clock;
}

function zoneSeconds(zone: string | undefined): number {
  const [, sign, hours, minutes] = /^([+-])(\d{2}):?(\d{2})$/.exec(zone ?? "") ?? [];
  if (sign === undefined) return 0;
  return (sign === "-" ? -1 : 1) * (Number(hours) * 3600 + Number(minutes) * 60);
}

const wholeYear = (year: string) => (year.length === 2 ? 2000 + Number(year) : Number(year));

/**
 * Reads one time. What has a date counts from 1970, a time of day from midnight, anything else from its own beginning.
 *
 * @returns Seconds, or null where the text is no such time
 */
export function readTime(text: string, format: TimeFormat, number: (text: string) => number | null): number | null {
  if (text.length > LOG_LIMITS.fieldCharacters) return null;
  const plain = text.trim();
  switch (format) {
    case "ymd": {
      const match = YEAR_FIRST.exec(plain);
      if (match === null) return null;
      const day = daySeconds(Number(match[1]), Number(match[2]), Number(match[3]));
      const at = together(day, clockSeconds(match.slice(4, 9)));
      return at === null ? null : at - zoneSeconds(match[9]);
    }
    case "dmy":
    case "mdy": {
      const match = YEAR_LAST.exec(plain);
      if (match === null) return null;
      const [first, second] = [Number(match[1]), Number(match[2])];
      const [day, month] = format === "dmy" ? [first, second] : [second, first];
      return together(daySeconds(wholeYear(match[3] ?? ""), month, day), clockSeconds(match.slice(4, 9)));
    }
    case "clock": {
      const match = CLOCK_ONLY.exec(plain);
      return match === null ? null : clockSeconds(match.slice(1, 6));
    }
    case "m:ss": {
      const match = MINUTES_AND_SECONDS.exec(plain);
      if (match === null || Number(match[2]) > 59) return null;
      return Number(match[1]) * 60 + Number(match[2]) + Number(`0.${match[3] ?? 0}`);
    }
    default: {
      const elapsed = number(plain);
      if (elapsed === null) return null;
      const seconds = elapsed * ELAPSED_SECONDS[format];
      return Math.abs(seconds) <= MOST_SECONDS ? seconds : null;
    }
  }
}

/** Whether a text is a date, a time of day or both, in any order of day and month. */
export function isTimeLike(text: string): boolean {
  if (text.length > LOG_LIMITS.fieldCharacters) return false;
  const plain = text.trim();
  return [CLOCK_ONLY, YEAR_FIRST, YEAR_LAST, MINUTES_AND_SECONDS].some((pattern) => pattern.test(plain));
}

/** Whether a text is a date without a time of day. */
export function isDateOnly(text: string): boolean {
  return isTimeLike(text) && !text.includes(":");
}
