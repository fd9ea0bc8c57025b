import { requirePositive } from "../check/require.js";
import type { Ratio, SquareFoot } from "../units/quantity.js";
import { requireFreeAreaRatio } from "./require-free-area-ratio.js";

/**
 * Returns the area that the louvers, bars or mesh of an opening leave to the air.
 *
 * A_free = A · F
 *
 * @param areaFt2 - Area of the whole opening, above 0 [ft2]
 * @param freeAreaRatio - Published factor, above 0, at most 1 (1 is a plain opening) [ratio]
 * @returns Free area [ft2]
 * @throws {DomainError} When the area is not positive or the factor is not above 0 and at most 1
 * @source Common practice: airflow of a face = velocity · area · factor
 * @example
 * freeArea(0.5, 0.75) // => 0.375
 */
export function freeArea(areaFt2: SquareFoot, freeAreaRatio: Ratio): SquareFoot {
  requirePositive("areaFt2", areaFt2);
  requireFreeAreaRatio("freeAreaRatio", freeAreaRatio);
  return areaFt2 * freeAreaRatio;
}
