import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import { MINUTES_PER_HOUR } from "../units/minutes-per-hour.js";
import type { BtuPerHour, BtuPerLb, Cfm, LbFt3 } from "../units/quantity.js";

/**
 * Returns the total heat, sensible and latent, that an airflow carries.
 *
 * q = 60 · ρ · Q · Δh, which is 4.5 · Q · Δh at 0.075 lb/ft3
 *
 * @param flowCfm - Airflow at the given density [cfm]
 * @param differenceBtuPerLb - Enthalpy of the air after less before, to a pound of dry air [Btu/lb]
 * @param densityLbFt3 - Density of the air where the airflow was measured, above 0 [lb/ft3]
 * @returns Total heat, above 0 where the air gains it [Btu/h]
 * @throws {DomainError} When the airflow or the difference is not finite, or the density is not positive
 * @source Derived: mass flow times enthalpy
 * @example
 * totalHeat(1000, 8, 0.075) // => 36000
 */
export function totalHeat(flowCfm: Cfm, differenceBtuPerLb: BtuPerLb, densityLbFt3: LbFt3): BtuPerHour {
  requireFinite("flowCfm", flowCfm);
  requireFinite("differenceBtuPerLb", differenceBtuPerLb);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("totalHeat", MINUTES_PER_HOUR * densityLbFt3 * flowCfm * differenceBtuPerLb);
}
