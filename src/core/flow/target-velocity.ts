import { requireFiniteResult, requirePositive } from "../check/require.js";
import { freeArea } from "../openings/free-area.js";
import type { Cfm, Fpm, Ratio, SquareFoot } from "../units/quantity.js";

/**
 * Returns the mean velocity that the meter should show when an opening carries its design airflow.
 *
 * V = Q / (A · F)
 *
 * @param designCfm - Design airflow, above 0 [cfm]
 * @param areaFt2 - Area of the whole opening, above 0 [ft2]
 * @param freeAreaRatio - Part of the opening that is free, above 0, at most 1 [ratio]
 * @returns Velocity to look for [fpm]
 * @throws {DomainError} When the design or the area is not positive or the factor is out of its range
 * @source Derived: Q = V · A · F solved for the velocity
 * @example
 * targetVelocity(150, 0.5, 0.75) // => 400
 */
export function targetVelocity(designCfm: Cfm, areaFt2: SquareFoot, freeAreaRatio: Ratio): Fpm {
  requirePositive("designCfm", designCfm);
  return requireFiniteResult("velocity", designCfm / freeArea(areaFt2, freeAreaRatio));
}
