import { STANDARD_AIR } from "../../../shared/tables/standard-air.js";
import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Fpm, LbFt3 } from "../units/quantity.js";

/**
 * Returns the actual velocity of air whose velocity an instrument shows as if it were standard air.
 *
 * V = V_standard · 0.075 / ρ
 *
 * For a thermal anemometer without density correction. A rotating vane shows nearly the actual velocity and needs
 * none; a pressure needs the density in its own formula.
 *
 * @param standardVelocityFpm - Velocity referred to standard air [fpm]
 * @param densityLbFt3 - Density of the air on site, above 0 [lb/ft3]
 * @returns Actual velocity [fpm]
 * @throws {DomainError} When the velocity is not finite or the density is not positive
 * @source Derived: equal mass flow, ρ · V = 0.075 · V_standard; which meter shows what is common practice
 * @example
 * actualVelocity(1000, 0.0617) // => 1215.6
 */
export function actualVelocity(standardVelocityFpm: Fpm, densityLbFt3: LbFt3): Fpm {
  requireFinite("standardVelocityFpm", standardVelocityFpm);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("velocity", standardVelocityFpm * (STANDARD_AIR.densityLbFt3 / densityLbFt3));
}
