import { averageVelocity } from "../readings/average-velocity.js";
import type { Cfm, Fpm, SquareFoot } from "../units/quantity.js";
import { airflow } from "./airflow.js";

/**
 * Returns the airflow in a duct from velocities read over its section.
 *
 * Q = (ΣV_i / n) · A
 *
 * @param velocitiesFpm - Readings at points that stand for equal areas, at least one [fpm]
 * @param areaFt2 - Inside area of the duct, above 0 [ft2]
 * @returns Airflow [cfm]
 * @throws {DomainError} When there is no reading, one is not finite, or the area is not positive
 * @source NAVFAC MO-114 vol. 3, ch. 2, questions 2-2 to 2-4
 * @example
 * ductAirflow([300, 450, 300, 450, 600, 450, 300, 450, 300], 2.25) // => 900
 */
export function ductAirflow(velocitiesFpm: readonly Fpm[], areaFt2: SquareFoot): Cfm {
  return airflow(averageVelocity(velocitiesFpm), areaFt2);
}
