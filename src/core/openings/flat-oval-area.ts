import { squareFeetFromSquareInches } from "../units/area.js";
import type { Inch, SquareFoot } from "../units/quantity.js";
import { flatOval } from "./flat-oval.js";

/**
 * Returns the area of a flat oval opening or duct.
 *
 * A = (π · b² / 4 + b · (a − b)) / 144, with a the major and b the minor axis
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @returns Area [ft2]
 * @throws {DomainError} When the minor axis is not positive or the major axis is the smaller one
 * @source Plane geometry: a circle of the minor axis and a rectangle between its halves
 * @example
 * flatOvalArea(24, 12) // => 1.7854
 */
export function flatOvalArea(majorIn: Inch, minorIn: Inch): SquareFoot {
  return squareFeetFromSquareInches(flatOval(majorIn, minorIn).areaIn2);
}
