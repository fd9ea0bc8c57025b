import { freeArea } from "../openings/free-area.js";
import { averageVelocity } from "../readings/average-velocity.js";
import type { Cfm, Fpm, Ratio, SquareFoot } from "../units/quantity.js";
import { airflow } from "./airflow.js";

/**
 * Returns the airflow through a louvered face from velocities read over it.
 *
 * Q = (ΣV_i / n) · A · F
 *
 * @param velocitiesFpm - Readings over the face, at least one [fpm]
 * @param areaFt2 - Area of the whole face, above 0 [ft2]
 * @param freeAreaRatio - Part of the face that is free, above 0, at most 1 [ratio]
 * @returns Airflow [cfm]
 * @throws {DomainError} When there is no reading, one is not finite, or the area or factor is out of its range
 * @source Common practice: airflow of a face = velocity · area · factor
 * @example
 * faceAirflow([400, 420, 380, 400], 0.58333, 0.75) // => 175
 */
export function faceAirflow(velocitiesFpm: readonly Fpm[], areaFt2: SquareFoot, freeAreaRatio: Ratio): Cfm {
  return airflow(averageVelocity(velocitiesFpm), freeArea(areaFt2, freeAreaRatio));
}
