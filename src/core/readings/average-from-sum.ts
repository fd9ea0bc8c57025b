import { requireFiniteResult, requireWhole } from "../check/require.js";
import type { Fpm } from "../units/quantity.js";

/**
 * Returns the mean of velocities of which the sum and the number are known.
 *
 * V = ΣV_i / n
 *
 * @param sumFpm - Sum of the readings, each with its sign [fpm]
 * @param readingCount - How many readings the sum holds, dead spots included, at least one [count]
 * @returns Mean velocity [fpm]
 * @throws {DomainError} When the sum is too large to hold or the count is not a whole number of at least 1
 * @source ISO 5802:2001, log-linear and log-Tchebycheff points: arithmetic mean; NAVFAC MO-114 vol. 3, ch. 2
 * @example
 * averageFromSum(3600, 9) // => 400
 */
export function averageFromSum(sumFpm: Fpm, readingCount: number): Fpm {
  requireWhole("readingCount", readingCount, 1);
  return requireFiniteResult("the sum of velocitiesFpm", sumFpm) / readingCount;
}
