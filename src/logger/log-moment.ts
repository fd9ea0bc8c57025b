import { logNumber } from "./log-number.js";
import type { LogSeries } from "./log-series.js";
import { readTime, SECONDS_PER_DAY } from "./time-format.js";

/**
 * Reads a moment of a log as typed: seconds after its first row, or a time of day, which then means its first passing.
 *
 * @returns Seconds after the first row; null where the text is neither
 */
export function logMoment(text: string, { startsAt }: LogSeries): number | null {
  const number = (typed: string) => logNumber(typed, "point");
  const seconds = number(text);
  if (seconds !== null) return seconds;
  const clock = readTime(text, "clock", number);
  if (clock === null) return null;
  const startOfDay = startsAt - (((startsAt % SECONDS_PER_DAY) + SECONDS_PER_DAY) % SECONDS_PER_DAY);
  const after = startOfDay + clock - startsAt;
  return after < 0 ? after + SECONDS_PER_DAY : after;
}
