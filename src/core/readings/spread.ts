import { DomainError } from "../check/domain-error.js";
import { requireFiniteResult } from "../check/require.js";
import type { Fpm, Percent } from "../units/quantity.js";
import { averageVelocity } from "./average-velocity.js";

/**
 * Returns how unevenly the air crosses a plane: the coefficient of variation of its readings.
 *
 * CV = 100 · √(Σ(V_i − V)² / n) / V
 *
 * The population form, over n and not n − 1: the points are the whole grid and not a sample from it, and with it
 * √(1 + CV²) is exactly what averaging pressures before the root adds. It describes the profile. It is not the
 * random error of the mean.
 *
 * @param velocitiesFpm - Readings, at least one, with a mean above 0 [fpm]
 * @returns Coefficient of variation, 0 where all readings agree [%]
 * @throws {DomainError} When there is no reading, one is not finite, or their mean is not above 0
 * @source Definition of the coefficient of variation; its link to averaged pressures is derived
 * @example
 * spread([300, 450, 300, 450, 600, 450, 300, 450, 300]) // => 25
 */
export function spread(velocitiesFpm: readonly Fpm[]): Percent {
  const meanFpm = averageVelocity(velocitiesFpm);
  if (!(meanFpm > 0))
    throw new DomainError("velocitiesFpm", "readings with an average above 0", `an average of ${meanFpm}`);
  let sumOfSquares = 0;
  for (const velocityFpm of velocitiesFpm) sumOfSquares += (velocityFpm / meanFpm - 1) ** 2;
  return requireFiniteResult("spread", 100 * Math.sqrt(sumOfSquares / velocitiesFpm.length));
}
