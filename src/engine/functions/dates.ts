import { CellError } from "../../cells/index.js";
import { fn } from "../formula/function-spec.js";
import { numberInText } from "../formula/text-to-number.js";
import { ERROR, type Scalar } from "../formula/values.js";
import { clean } from "./rounding.js";

const DAY_MS = 86_400_000;
/** The last day that a cell can show, in the year 9999. */
export const LAST_DAY = 2_958_465;
/** The day that spreadsheet programs count and no calendar has: 29 February 1900. */
const FALSE_LEAP_DAY = 60;

export interface DayOfCalendar {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

/** Returns the day that a cell's number means. */
export function calendarDay(serial: number): DayOfCalendar {
  const day = Math.floor(serial);
  if (day < 0 || day > LAST_DAY) throw ERROR.number;
  if (day === 0) return { year: 1900, month: 1, day: 0 };
  if (day === FALSE_LEAP_DAY) return { year: 1900, month: 2, day: 29 };
  const date = new Date(Date.UTC(1899, 11, day < FALSE_LEAP_DAY ? 31 : 30) + day * DAY_MS);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** Returns the number of a day; months and days beyond the calendar go on into the next or back. */
export function serialOf(year: number, month: number, day: number): number {
  if (![year, month, day].every((part) => Math.abs(part) < 1e7)) throw ERROR.number;
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  const days = Math.round((date.getTime() - Date.UTC(1899, 11, 30)) / DAY_MS);
  const serial = days <= FALSE_LEAP_DAY ? days - 1 : days;
  if (year === 1900 && month === 2 && day === 29) return FALSE_LEAP_DAY;
  if (!(serial >= 0 && serial <= LAST_DAY)) throw ERROR.number;
  return serial;
}

export function daysOfMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

function monthsLater(serial: number, months: number): DayOfCalendar {
  const { year, month, day } = calendarDay(serial);
  const count = month - 1 + Math.trunc(months);
  if (!(Math.abs(count) < 120_000)) throw ERROR.number;
  return { year: year + Math.floor(count / 12), month: (((count % 12) + 12) % 12) + 1, day };
}

export function addMonths(serial: number, months: number): number {
  const { year, month, day } = monthsLater(serial, months);
  return serialOf(year, month, Math.min(day, daysOfMonth(year, month)));
}

/** The day of the week, 0 for Sunday. */
export function weekday(serial: number): number {
  return (((Math.floor(serial) - 1) % 7) + 7) % 7;
}

/** Which number a day of the week has: in each way the first day, and what it counts from. */
const WEEKDAYS: Readonly<Record<number, readonly [number, number]>> = {
  1: [0, 1],
  2: [1, 1],
  3: [1, 0],
  11: [1, 1],
  12: [2, 1],
  13: [3, 1],
  14: [4, 1],
  15: [5, 1],
  16: [6, 1],
  17: [0, 1],
};

function weekdayNumber(serial: number, way: number): number {
  const [first, base] = WEEKDAYS[Math.trunc(way)] ?? [];
  if (first === undefined || base === undefined) throw ERROR.number;
  calendarDay(serial);
  return ((weekday(serial) - first + 7) % 7) + base;
}

export function isoWeek(serial: number): number {
  const day = Math.floor(serial);
  calendarDay(day);
  const thursday = day + 3 - ((weekday(day) + 6) % 7);
  const { year } = calendarDay(Math.max(thursday, 1));
  return Math.floor((thursday - serialOf(year, 1, 1)) / 7) + 1;
}

function weekNumber(serial: number, way: number): number {
  const cut = Math.trunc(way);
  if (cut === 21) return isoWeek(serial);
  const first = cut === 1 ? 0 : cut === 2 ? 1 : WEEKDAYS[cut]?.[0];
  if (first === undefined || cut === 3) throw ERROR.number;
  const newYear = serialOf(calendarDay(serial).year, 1, 1);
  const before = (weekday(newYear) - first + 7) % 7;
  return Math.floor((Math.floor(serial) - newYear + before) / 7) + 1;
}

/** Days of years that have 360 of them. */
export function days360(from: DayOfCalendar, to: DayOfCalendar, isEuropean: boolean): number {
  let [one, other] = [from.day, to.day];
  if (isEuropean) [one, other] = [Math.min(one, 30), Math.min(other, 30)];
  else {
    if (from.month === 2 && one === daysOfMonth(from.year, 2)) one = 30;
    if (other === 31 && one >= 30) other = 30;
    if (one === 31) one = 30;
  }
  return (to.year - from.year) * 360 + (to.month - from.month) * 30 + other - one;
}

function dateDifference(from: number, to: number, unit: string): number {
  const [first, last] = [Math.floor(from), Math.floor(to)];
  if (first > last) throw ERROR.number;
  const [a, b] = [calendarDay(first), calendarDay(last)];
  const months = (b.year - a.year) * 12 + b.month - a.month - (b.day < a.day ? 1 : 0);
  switch (unit.toLowerCase()) {
    case "y":
      return Math.floor(months / 12);
    case "m":
      return months;
    case "d":
      return last - first;
    case "ym":
      return months % 12;
    case "md":
      return b.day >= a.day ? b.day - a.day : last - serialOf(b.year, b.month - 1, a.day);
    case "yd": {
      const sameYear = b.month > a.month || (b.month === a.month && b.day >= a.day) ? b.year : b.year - 1;
      return last - serialOf(sameYear, a.month, a.day);
    }
    default:
      throw ERROR.number;
  }
}

function yearsBetween(a: DayOfCalendar, b: DayOfCalendar, from: number, to: number): number {
  const isLeap = (year: number) => daysOfMonth(year, 2) === 29;
  if (b.year === a.year) return (to - from) / (isLeap(a.year) ? 366 : 365);
  const isWithinYear = b.year === a.year + 1 && (b.month < a.month || (b.month === a.month && b.day <= a.day));
  if (isWithinYear) {
    const isBeforeMarch = a.month < 3;
    const hasLeapDay =
      (isLeap(a.year) && isBeforeMarch) || (isLeap(b.year) && (b.month > 2 || (b.month === 2 && b.day === 29)));
    return (to - from) / (hasLeapDay ? 366 : 365);
  }
  const years = b.year - a.year + 1;
  return (to - from) / ((serialOf(b.year + 1, 1, 1) - serialOf(a.year, 1, 1)) / years);
}

/** @source The way of counting of each basis: Microsoft's reference of YEARFRAC; ISDA 2006 definitions, section 4.16 */
export function yearFraction(start: number, end: number, basis: number): number {
  const way = Math.trunc(basis);
  if (way < 0 || way > 4) throw ERROR.number;
  const [from, to] = [Math.floor(Math.min(start, end)), Math.floor(Math.max(start, end))];
  const [a, b] = [calendarDay(from), calendarDay(to)];
  if (way === 0) {
    // Both on the last of February count as the 30th.
    const isLast = (at: DayOfCalendar) => at.month === 2 && at.day === daysOfMonth(at.year, 2);
    return days360(a, isLast(a) && isLast(b) ? { ...b, day: 30 } : b, false) / 360;
  }
  if (way === 1) return from === to ? 0 : yearsBetween(a, b, from, to);
  if (way === 2) return (to - from) / 360;
  return way === 3 ? (to - from) / 365 : days360(a, b, true) / 360;
}

/** A date or a number; a truth value is none. */
function serial(value: Scalar): number {
  if (value instanceof CellError) throw value;
  if (typeof value === "boolean") throw ERROR.value;
  const number = typeof value === "string" ? numberInText(value) : (value ?? 0);
  if (number === undefined) throw ERROR.value;
  return number;
}

const secondsOf = (time: number) => {
  if (time < 0) throw ERROR.number;
  return Math.round((time - Math.floor(time)) * 86_400);
};

function written(text: string, isDay: boolean): number {
  const number = /[-/:a-z]/i.test(text) ? numberInText(text) : undefined;
  const isTime = /:|\d\s*[ap]m?$/i.test(text.trim());
  const isDate = /[-/]|[a-z]{3}/i.test(text.replace(/\s*[ap]m?$/i, ""));
  if (number === undefined || number < 0 || (isDay ? !isDate && isTime : !isTime && !isDate)) throw ERROR.value;
  return isDay ? Math.floor(number) : number - Math.floor(number);
}

/** Now, as a cell counts it: days, by the clock on the wall. */
function now(): number {
  const time = new Date();
  return (time.getTime() - time.getTimezoneOffset() * 60_000 - Date.UTC(1899, 11, 30)) / DAY_MS;
}

export const DATES = [
  fn("DATE", "n n n", (_, year, month, day) => {
    const cut = Math.trunc(year);
    if (cut < 0 || cut > 9999) throw ERROR.number;
    return serialOf(cut < 1900 ? cut + 1900 : cut, Math.trunc(month), Math.trunc(day));
  }),
  fn("TIME", "n n n", (_, hours, minutes, seconds) => {
    const parts = [hours, minutes, seconds].map(Math.trunc) as [number, number, number];
    if (parts.some((part) => part > 32_767)) throw ERROR.number;
    const total = parts[0] * 3600 + parts[1] * 60 + parts[2];
    if (total < 0) throw ERROR.number;
    return (total % 86_400) / 86_400;
  }),
  fn("YEAR", "n", (_, day) => calendarDay(day).year),
  fn("MONTH", "n", (_, day) => calendarDay(day).month),
  fn("DAY", "n", (_, day) => calendarDay(day).day),
  fn("HOUR", "n", (_, time) => Math.floor((secondsOf(time) % 86_400) / 3600)),
  fn("MINUTE", "n", (_, time) => Math.floor((secondsOf(time) % 3600) / 60)),
  fn("SECOND", "n", (_, time) => secondsOf(time) % 60),
  fn("TODAY", "", () => Math.floor(now())),
  fn("NOW", "", now),
  fn("DATEVALUE", "t", (_, text) => written(text, true)),
  fn("TIMEVALUE", "t", (_, text) => written(text, false)),
  fn("WEEKDAY", "n n?", (_, day, way = 1) => weekdayNumber(day, way)),
  fn("WEEKNUM", "n n?", (_, day, way = 1) => weekNumber(day, way)),
  fn("ISOWEEKNUM", "n", (_, day) => isoWeek(day)),
  fn("EDATE", "v n", (_, day, months) => addMonths(serial(day), months)),
  fn("EOMONTH", "v n", (_, day, months) => {
    const { year, month } = monthsLater(serial(day), months);
    return serialOf(year, month, daysOfMonth(year, month));
  }),
  fn("DAYS", "n n", (_, last, first) => {
    calendarDay(last);
    calendarDay(first);
    return Math.floor(last) - Math.floor(first);
  }),
  fn("DAYS360", "n n b?", (_, from, to, isEuropean = false) => days360(calendarDay(from), calendarDay(to), isEuropean)),
  fn("DATEDIF", "n n t", (_, from, to, unit) => dateDifference(from, to, unit)),
  fn("YEARFRAC", "v v n?", (_, from, to, basis = 0) => clean(yearFraction(serial(from), serial(to), basis))),
];
