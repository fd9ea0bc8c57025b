import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Fpm, InWg, LbFt3 } from "../units/quantity.js";
import { VELOCITY_PRESSURE_CONSTANT } from "./velocity-pressure-constant.js";

/**
 * Returns the air velocity that produces a measured velocity pressure.
 *
 * V = 1097.787 · √(pv / ρ), which is √(2 · pv / ρ) in SI units
 *
 * @param pressureInWg - Velocity pressure, 0 or more [inWG]
 * @param densityLbFt3 - Density of the air in the duct, above 0 [lb/ft3]
 * @returns Velocity along the duct [fpm]
 * @throws {DomainError} When the pressure is negative or the density is not positive
 * @source Bernoulli's law; constant derived from the exact factors of NIST Special Publication 811, appendix B.8
 * @example
 * velocityFromPressure(0.25, 0.075) // => 2004.3
 */
export function velocityFromPressure(pressureInWg: InWg, densityLbFt3: LbFt3): Fpm {
  requireAtLeast("pressureInWg", pressureInWg, 0);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("velocity", VELOCITY_PRESSURE_CONSTANT * Math.sqrt(pressureInWg / densityLbFt3));
}
