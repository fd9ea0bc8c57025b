import { requirePositive } from "../check/require.js";
import { MINUTES_PER_HOUR } from "../units/minutes-per-hour.js";
import type { BtuPerHourCfmF, LbFt3 } from "../units/quantity.js";

/**
 * Specific heat of dry air in Btu/(lb degF).
 *
 * 60 · 0.075 · 0.24 = 1.08. Moist air at 0.01 lb/lb has 0.24 + 0.45 · 0.01, which makes the 1.10 that is also printed.
 *
 * @source Common practice: the 1.08 of the trade rests on it
 */
const DRY_AIR_SPECIFIC_HEAT_BTU_PER_LB_F = 0.24;

/**
 * Returns the sensible heat that one cubic foot per minute carries for each degree of difference.
 *
 * F = 60 · ρ · 0.24, which is 1.08 at 0.075 lb/ft3
 *
 * @param densityLbFt3 - Density of the air, above 0 [lb/ft3]
 * @returns Sensible heat factor [Btu/(h cfm degF)]
 * @throws {DomainError} When the density is not positive
 * @source Derived: mass flow times specific heat of dry air; 1.08 is common practice, 1.10 with moisture too
 * @example
 * sensibleHeatFactor(0.075) // => 1.08
 */
export function sensibleHeatFactor(densityLbFt3: LbFt3): BtuPerHourCfmF {
  requirePositive("densityLbFt3", densityLbFt3);
  return MINUTES_PER_HOUR * densityLbFt3 * DRY_AIR_SPECIFIC_HEAT_BTU_PER_LB_F;
}
