import { requireFinite, requireFiniteResult } from "../check/require.js";
import type { BtuPerHour, Cfm, FahrenheitDifference, LbFt3 } from "../units/quantity.js";
import { sensibleHeatFactor } from "./sensible-heat-factor.js";

/**
 * Returns the sensible heat that an airflow carries.
 *
 * q = 60 · ρ · 0.24 · Q · ΔT, which is 1.08 · Q · ΔT at 0.075 lb/ft3
 *
 * @param flowCfm - Airflow at the given density [cfm]
 * @param differenceF - Temperature of the air after less before; its sign is that of the heat [degF difference]
 * @param densityLbFt3 - Density of the air where the airflow was measured, above 0 [lb/ft3]
 * @returns Sensible heat, above 0 where the air is warmed [Btu/h]
 * @throws {DomainError} When the airflow or the difference is not finite, or the density is not positive
 * @source Derived: mass flow times specific heat of dry air
 * @example
 * sensibleHeat(1000, 20, 0.075) // => 21600
 */
export function sensibleHeat(flowCfm: Cfm, differenceF: FahrenheitDifference, densityLbFt3: LbFt3): BtuPerHour {
  requireFinite("flowCfm", flowCfm);
  requireFinite("differenceF", differenceF);
  return requireFiniteResult("sensibleHeat", sensibleHeatFactor(densityLbFt3) * flowCfm * differenceF);
}
