import { requireFiniteResult, requirePositive } from "../check/require.js";
import { requireReadings } from "../check/require-readings.js";
import type { Fpm, InWg, LbFt3 } from "../units/quantity.js";
import { VELOCITY_PRESSURE_CONSTANT } from "./velocity-pressure-constant.js";

/**
 * Returns the mean velocity of a traverse read as velocity pressures.
 *
 * V = 1097.787 · Σ√(pv_i / ρ) / n
 *
 * Each pressure becomes a velocity before the mean is taken: the mean of the pressures would give too much, by
 * √(1 + CV²) with CV the coefficient of variation of the velocities. A negative pressure counts as 0 and stays in the
 * count; the plane check reports it.
 *
 * @param pressuresInWg - Velocity pressures, at least one [inWG]
 * @param densityLbFt3 - Density of the air in the duct, above 0 [lb/ft3]
 * @returns Mean velocity [fpm]
 * @throws {DomainError} When there is no reading, one is not finite, or the density is not positive
 * @source 40 CFR 60 App. A-1, Method 2: average of the square roots; a negative pressure as 0 is common practice
 * @example
 * averageVelocityFromPressures([0.04, 0.09, 0.16], 0.075) // => 1202.6
 */
export function averageVelocityFromPressures(pressuresInWg: readonly InWg[], densityLbFt3: LbFt3): Fpm {
  requireReadings("pressuresInWg", pressuresInWg);
  requirePositive("densityLbFt3", densityLbFt3);
  let sumOfRoots = 0;
  for (const pressureInWg of pressuresInWg) sumOfRoots += Math.sqrt(Math.max(pressureInWg, 0) / densityLbFt3);
  return requireFiniteResult("velocity", VELOCITY_PRESSURE_CONSTANT * (sumOfRoots / pressuresInWg.length));
}
