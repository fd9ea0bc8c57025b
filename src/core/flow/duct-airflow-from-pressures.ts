import { averageVelocityFromPressures } from "../readings/average-velocity-from-pressures.js";
import type { Cfm, InWg, LbFt3, SquareFoot } from "../units/quantity.js";
import { airflow } from "./airflow.js";

/**
 * Returns the airflow in a duct from velocity pressures read over its section.
 *
 * Q = 1097.787 · (Σ√(pv_i / ρ) / n) · A
 *
 * @param pressuresInWg - Velocity pressures at points that stand for equal areas, at least one [inWG]
 * @param areaFt2 - Inside area of the duct, above 0 [ft2]
 * @param densityLbFt3 - Density of the air in the duct, above 0 [lb/ft3]
 * @returns Airflow at the density of the duct [cfm]
 * @throws {DomainError} When there is no reading, one is not finite, or the area or density is not positive
 * @source NAVFAC MO-114 vol. 3, ch. 2, question 2-5; 40 CFR 60 App. A-1, Method 2
 * @example
 * ductAirflowFromPressures([0.5], 4, 0.075) // => 11338
 */
export function ductAirflowFromPressures(
  pressuresInWg: readonly InWg[],
  areaFt2: SquareFoot,
  densityLbFt3: LbFt3,
): Cfm {
  return airflow(averageVelocityFromPressures(pressuresInWg, densityLbFt3), areaFt2);
}
