import { requireReadings } from "../check/require-readings.js";
import type { Fpm } from "../units/quantity.js";
import { median } from "./median.js";

/** A reading this many times the middle one, or that part of it, looks like a slipped digit. */
const FAR_OFF_RATIO = 3;

/**
 * Returns the places of readings that lie so far from the others that a slip of the pen is likelier than the air.
 *
 * far off: above 3 times or below 1/3 of the median
 *
 * It only asks for a second look. No reading is left out of an average for it.
 *
 * @param velocitiesFpm - Readings, at least one [fpm]
 * @returns Places in the list, the first being 0, in ascending order [count]
 * @throws {DomainError} When there is no reading or one is not finite
 * @source Common practice, no source: wide enough for a duct profile, narrow enough for a lost decimal point
 * @example
 * farOffReadings([400, 420, 4100, 390, 41]) // => [2, 4]
 */
export function farOffReadings(velocitiesFpm: readonly Fpm[]): readonly number[] {
  requireReadings("velocitiesFpm", velocitiesFpm);
  const middleFpm = median(velocitiesFpm);
  if (!(middleFpm > 0)) return [];
  return velocitiesFpm.flatMap((velocityFpm, index) =>
    velocityFpm > middleFpm * FAR_OFF_RATIO || velocityFpm < middleFpm / FAR_OFF_RATIO ? [index] : [],
  );
}
