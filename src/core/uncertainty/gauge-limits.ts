import { DomainError } from "../check/domain-error.js";
import { requireAtLeast } from "../check/require.js";
import { requireReadings } from "../check/require-readings.js";
import type { InWg, Percent } from "../units/quantity.js";

/**
 * Returns the ± that a gauge leaves on the mean velocity of a Pitot traverse.
 *
 * a = 100 · max |Σ√max(0, p ± (x · p / 100 + y)) / Σ√p − 1|
 *
 * The square root halves what the percent of reading does, and the fixed part weighs more the lower the pressure: a
 * zero that is off by 0.005 in.w.c. moves a velocity from 0.01 in.w.c. by 22 to 29 %.
 *
 * @param pressuresInWg - Velocity pressures of the traverse, at least one above 0; negative ones count as 0 [inWG]
 * @param ofReadingPercent - The gauge's ± in percent of reading, 0 or more [%]
 * @param fixedInWg - Its fixed ±: zero, full scale or half a division, 0 or more [inWG]
 * @returns Half-width of the limits around the mean velocity [%]
 * @throws {DomainError} When no pressure is above 0, one is not finite, or a part of the ± is negative
 * @source Derived from V = √(2 p / ρ) at both ends of the gauge's limits
 * @example
 * gaugeLimits([0.01], 2, 0.005) // => 30.72
 */
export function gaugeLimits(pressuresInWg: readonly InWg[], ofReadingPercent: Percent, fixedInWg: InWg): Percent {
  requireReadings("pressuresInWg", pressuresInWg);
  requireAtLeast("ofReadingPercent", ofReadingPercent, 0);
  requireAtLeast("fixedInWg", fixedInWg, 0);
  const sumOfRoots = (side: number) =>
    pressuresInWg.reduce((sum, pressure) => {
      const positive = Math.max(pressure, 0);
      return sum + Math.sqrt(Math.max(0, positive + side * ((ofReadingPercent / 100) * positive + fixedInWg)));
    }, 0);
  const asRead = sumOfRoots(0);
  if (asRead === 0) throw new DomainError("pressures", "above 0 at one point at least", 0);
  return 100 * Math.max(sumOfRoots(1) / asRead - 1, 1 - sumOfRoots(-1) / asRead);
}
