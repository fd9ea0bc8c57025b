import type { Inch } from "../units/quantity.js";
import { flatOval } from "./flat-oval.js";

/**
 * Returns the hydraulic diameter of a flat oval duct, in which distances to a disturbance are counted.
 *
 * Dh = 4 · A / P
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @returns Hydraulic diameter [in]
 * @throws {DomainError} When the minor axis is not positive or the major axis is the smaller one
 * @source Definition of the hydraulic diameter; plane geometry
 * @example
 * flatOvalHydraulicDiameter(24, 12) // => 16.668
 */
export function flatOvalHydraulicDiameter(majorIn: Inch, minorIn: Inch): Inch {
  const { areaIn2, perimeterIn } = flatOval(majorIn, minorIn);
  return 4 * (areaIn2 / perimeterIn);
}
