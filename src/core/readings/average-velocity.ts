import { requireReadings } from "../check/require-readings.js";
import type { Fpm } from "../units/quantity.js";
import { averageFromSum } from "./average-from-sum.js";

/**
 * Returns the mean of velocities read at points that stand for equal parts of an area.
 *
 * V = ΣV_i / n
 *
 * A negative reading keeps its sign: air that runs backwards takes away from the flow. A point that was not read
 * must be left out, never entered as 0.
 *
 * @param velocitiesFpm - Readings, at least one; 0 is a dead spot and counts [fpm]
 * @returns Mean velocity [fpm]
 * @throws {DomainError} When there is no reading or one is not finite
 * @source ISO 5802:2001, log-linear and log-Tchebycheff points: arithmetic mean; NAVFAC MO-114 vol. 3, ch. 2
 * @example
 * averageVelocity([300, 450, 300, 450, 600, 450, 300, 450, 300]) // => 400
 */
export function averageVelocity(velocitiesFpm: readonly Fpm[]): Fpm {
  let sumFpm = 0;
  for (let index = 0; index < velocitiesFpm.length; index += 1) sumFpm += velocitiesFpm[index] as Fpm;
  // A finite sum of at least one reading has only finite readings in it; so the usual case looks at each but once.
  if (velocitiesFpm.length === 0 || !Number.isFinite(sumFpm)) requireReadings("velocitiesFpm", velocitiesFpm);
  return averageFromSum(sumFpm, velocitiesFpm.length);
}
