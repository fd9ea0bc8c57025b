import { requireReadings } from "../check/require-readings.js";

/**
 * Returns the middle of some numbers, and of an even count the average of the two in the middle.
 *
 * @param values - At least one number, all in one unit [same unit]
 * @returns The median [same unit]
 * @throws {DomainError} When there is no number, or one is not finite
 * @source Definition of the median
 * @example
 * median([400, 380, 420]) // => 400
 * median([400, 380, 420, 390]) // => 395
 */
export function median(values: readonly number[]): number {
  requireReadings("values", values);
  // Of numbers alone, this sorts by value and many times faster than a list does.
  const sorted = Float64Array.from(values).sort();
  const upper = sorted[Math.floor(sorted.length / 2)] ?? 0;
  const lower = sorted[Math.floor((sorted.length - 1) / 2)] ?? 0;
  return lower / 2 + upper / 2;
}
