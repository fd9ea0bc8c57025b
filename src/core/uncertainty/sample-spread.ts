import { requireFiniteResult } from "../check/require.js";
import { averageVelocity } from "../readings/average-velocity.js";
import type { Fpm, Percent } from "../units/quantity.js";

/**
 * Returns how much readings differ, as a sample of what the opening holds.
 *
 * s = 100 · √(Σ(Vᵢ − V)² / (n − 1)) / |V|
 *
 * @param velocitiesFpm - Readings, at least one; a mean of 0 gives no percent and counts as a spread of 0 [fpm]
 * @returns Standard deviation in percent of the mean, 0 for one reading [%]
 * @throws {DomainError} When there is no reading or one is not finite
 * @source JCGM 100:2008 (GUM), 4.2.2
 * @example
 * sampleSpread([380, 420]) // => 7.0711
 */
export function sampleSpread(velocitiesFpm: readonly Fpm[]): Percent {
  const meanFpm = averageVelocity(velocitiesFpm);
  if (velocitiesFpm.length === 1 || meanFpm === 0) return 0;
  let sumOfSquares = 0;
  for (const velocityFpm of velocitiesFpm) sumOfSquares += (velocityFpm / meanFpm - 1) ** 2;
  return requireFiniteResult("spread", 100 * Math.sqrt(sumOfSquares / (velocitiesFpm.length - 1)));
}
