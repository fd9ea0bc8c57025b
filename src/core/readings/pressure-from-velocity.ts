import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Fpm, InWg, LbFt3 } from "../units/quantity.js";
import { VELOCITY_PRESSURE_CONSTANT } from "./velocity-pressure-constant.js";

/**
 * Returns the velocity pressure that a Pitot tube should show at a velocity.
 *
 * pv = ρ · (V / 1097.787)²
 *
 * @param velocityFpm - Velocity along the duct, 0 or more [fpm]
 * @param densityLbFt3 - Density of the air in the duct, above 0 [lb/ft3]
 * @returns Velocity pressure [inWG]
 * @throws {DomainError} When the velocity is negative or the density is not positive
 * @source Bernoulli's law; constant derived from the exact factors of NIST Special Publication 811, appendix B.8
 * @example
 * pressureFromVelocity(1000, 0.075) // => 0.0622
 */
export function pressureFromVelocity(velocityFpm: Fpm, densityLbFt3: LbFt3): InWg {
  requireAtLeast("velocityFpm", velocityFpm, 0);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("pressure", densityLbFt3 * (velocityFpm / VELOCITY_PRESSURE_CONSTANT) ** 2);
}
