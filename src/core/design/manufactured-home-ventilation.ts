import { MANUFACTURED_HOME_VENTILATION } from "../../../shared/tables/dwelling-ventilation.js";
import { requirePositive } from "../check/require.js";
import type { Cfm, SquareFoot } from "../units/quantity.js";

/**
 * Returns the least whole-house ventilation of a manufactured home by the federal rule.
 *
 * Q = max(50, 0.035 · A)
 *
 * The same rule lets the builder use ASHRAE 62.2 instead, and forbids a system that makes negative pressure in its
 * climate zone 1 or positive pressure in zones 2 and 3.
 *
 * @param floorAreaFt2 - Interior floor area, above 0 [ft2]
 * @returns Outdoor air for the home [cfm]
 * @throws {DomainError} When the area is not positive
 * @source 24 CFR 3280.103 (read)
 * @example
 * manufacturedHomeVentilation(1800) // => 63
 */
export function manufacturedHomeVentilation(floorAreaFt2: SquareFoot): Cfm {
  requirePositive("floorAreaFt2", floorAreaFt2);
  const { areaRateCfmFt2, leastCfm } = MANUFACTURED_HOME_VENTILATION;
  return Math.max(leastCfm, areaRateCfmFt2 * floorAreaFt2);
}
