import { freeArea } from "../openings/free-area.js";
import type { Cfm, Fpm, Ratio, SquareFoot } from "../units/quantity.js";
import { airflow } from "./airflow.js";

/**
 * Returns the airflow through a louvered face from the average velocity over it.
 *
 * Q = V · A · F
 *
 * @param velocityFpm - Average velocity over the face, negative where the air runs the wrong way [fpm]
 * @param areaFt2 - Area of the whole face, above 0 [ft2]
 * @param freeAreaRatio - Part of the face that is free, above 0, at most 1 [ratio]
 * @returns Airflow [cfm]
 * @throws {DomainError} When the velocity is not finite, or the area or factor is out of its range
 * @source Common practice: airflow of a face = velocity · area · factor
 * @example
 * faceAirflow(400, 0.58333, 0.75) // => 175
 */
export function faceAirflow(velocityFpm: Fpm, areaFt2: SquareFoot, freeAreaRatio: Ratio): Cfm {
  return airflow(velocityFpm, freeArea(areaFt2, freeAreaRatio));
}
