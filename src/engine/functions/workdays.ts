import { CellError } from "../../cells/index.js";
import { toNumber } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { calendarDay, LAST_DAY, weekday } from "./dates.js";
import { eachValue } from "./each-value.js";

/** Which days of the week are free, Sunday first. */
type FreeDays = readonly boolean[];

const WEEKEND: FreeDays = [true, false, false, false, false, false, true];

function freeDays(given: Scalar | undefined): FreeDays {
  if (given === undefined || given === null) return WEEKEND;
  if (given instanceof CellError) throw given;
  if (typeof given === "string") {
    if (!/^[01]{7}$/.test(given)) throw ERROR.value;
    // A text begins with Monday.
    return [...(given.slice(6) + given.slice(0, 6))].map((mark) => mark === "1");
  }
  const kind = Math.trunc(Number(given));
  const day = (index: number) => (index + 7) % 7;
  if (kind >= 1 && kind <= 7) return WEEKEND.map((_, index) => index === day(kind - 2) || index === day(kind - 1));
  if (kind >= 11 && kind <= 17) return WEEKEND.map((_, index) => index === kind - 11);
  throw ERROR.number;
}

/** Days off that are no free days of the week anyway, each once, in order. */
function holidaysOf(given: Value, free: FreeDays, context: Context): readonly number[] {
  const days = new Set<number>();
  if (given !== undefined) {
    eachValue(given, context, (scalar) => {
      if (scalar === null) return;
      const day = Math.floor(toNumber(scalar));
      calendarDay(day);
      if (!free[weekday(day)]) days.add(day);
    });
  }
  return [...days].sort((one, other) => one - other);
}

/** Working days from the first day to another, both included, by arithmetic and not by counting up. */
function workingDays(from: number, to: number, free: FreeDays, holidays: readonly number[]): number {
  const length = to - from + 1;
  const weeks = Math.floor(length / 7);
  let days = weeks * free.filter((isFree) => !isFree).length;
  for (let day = from + weeks * 7; day <= to; day += 1) if (!free[weekday(day)]) days += 1;
  return days - holidays.filter((day) => day >= from && day <= to).length;
}

function networkDays(start: number, end: number, free: FreeDays, holidays: readonly number[]): number {
  const [from, to] = [Math.floor(start), Math.floor(end)];
  calendarDay(from);
  calendarDay(to);
  return from <= to ? workingDays(from, to, free, holidays) : -workingDays(to, from, free, holidays);
}

/** The day so many working days away: found by halves, since the count rises with the day. */
function workday(start: number, count: number, free: FreeDays, holidays: readonly number[]): number {
  const [from, days] = [Math.floor(start), Math.trunc(count)];
  calendarDay(from);
  if (days === 0) return from;
  if (free.every((isFree) => isFree)) throw ERROR.value;
  if (Math.abs(days) > LAST_DAY) throw ERROR.number;
  const forward = days > 0;
  const countTo = (day: number) =>
    forward ? workingDays(from + 1, day, free, holidays) : workingDays(day, from - 1, free, holidays);
  let [near, far] = [from, forward ? LAST_DAY : 0];
  if (countTo(far) < Math.abs(days)) throw ERROR.number;
  while (Math.abs(far - near) > 1) {
    const middle = Math.trunc((near + far) / 2);
    if (countTo(middle) >= Math.abs(days)) far = middle;
    else near = middle;
  }
  return far;
}

export const WORKDAYS = [
  fn("NETWORKDAYS", "n n r~", (context, from, to, given) =>
    networkDays(from, to, WEEKEND, holidaysOf(given, WEEKEND, context)),
  ),
  fn("NETWORKDAYS.INTL", "n n v~ r~", (context, from, to, kind, given) => {
    const free = freeDays(kind);
    return networkDays(from, to, free, holidaysOf(given, free, context));
  }),
  fn("WORKDAY", "n n r~", (context, from, count, given) =>
    workday(from, count, WEEKEND, holidaysOf(given, WEEKEND, context)),
  ),
  fn("WORKDAY.INTL", "n n v~ r~", (context, from, count, kind, given) => {
    const free = freeDays(kind);
    return workday(from, count, free, holidaysOf(given, free, context));
  }),
];
