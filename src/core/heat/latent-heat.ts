import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import { MINUTES_PER_HOUR } from "../units/minutes-per-hour.js";
import type { BtuPerHour, Cfm, LbFt3, LbLb } from "../units/quantity.js";

/**
 * Heat that evaporating water takes up, in Btu/lb, as the trade's 4,840 assumes it: 60 · 0.075 · 1076 = 4842.
 *
 * @source From memory, unverified
 */
const EVAPORATION_HEAT_BTU_PER_LB = 1076;

/**
 * Returns the latent heat that an airflow carries.
 *
 * q = 60 · ρ · 1076 · Q · ΔW, which is 4842 · Q · ΔW at 0.075 lb/ft3
 *
 * @param flowCfm - Airflow at the given density [cfm]
 * @param differenceRatio - Humidity ratio of the air after less before, pounds of water to a pound of dry air [lb/lb]
 * @param densityLbFt3 - Density of the air where the airflow was measured, above 0 [lb/ft3]
 * @returns Latent heat, above 0 where the air takes up water [Btu/h]
 * @throws {DomainError} When the airflow or the difference is not finite, or the density is not positive
 * @source Derived: mass flow of air times water taken up times 1076 Btu/lb (from memory; print has 4840)
 * @example
 * latentHeat(1000, 0.002, 0.075) // => 9684
 */
export function latentHeat(flowCfm: Cfm, differenceRatio: LbLb, densityLbFt3: LbFt3): BtuPerHour {
  requireFinite("flowCfm", flowCfm);
  requireFinite("differenceRatio", differenceRatio);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult(
    "latentHeat",
    MINUTES_PER_HOUR * densityLbFt3 * EVAPORATION_HEAT_BTU_PER_LB * flowCfm * differenceRatio,
  );
}
