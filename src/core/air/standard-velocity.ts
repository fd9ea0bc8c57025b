import { STANDARD_AIR } from "../../../shared/tables/standard-air.js";
import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Fpm, LbFt3 } from "../units/quantity.js";

/**
 * Returns the velocity that standard air would need to carry the same mass.
 *
 * V_standard = V · ρ / 0.075
 *
 * @param velocityFpm - Actual velocity [fpm]
 * @param densityLbFt3 - Density of the air on site, above 0 [lb/ft3]
 * @returns Velocity referred to standard air [fpm]
 * @throws {DomainError} When the velocity is not finite or the density is not positive
 * @source Derived: equal mass flow, ρ · V = 0.075 · V_standard
 * @example
 * standardVelocity(1000, 0.0617) // => 822.7
 */
export function standardVelocity(velocityFpm: Fpm, densityLbFt3: LbFt3): Fpm {
  requireFinite("velocityFpm", velocityFpm);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("velocity", velocityFpm * (densityLbFt3 / STANDARD_AIR.densityLbFt3));
}
