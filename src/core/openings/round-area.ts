import { requireFiniteResult, requirePositive } from "../check/require.js";
import { squareFeetFromSquareInches } from "../units/area.js";
import type { Inch, SquareFoot } from "../units/quantity.js";

/**
 * Returns the area of a round opening or duct.
 *
 * A = π · D² / 4 / 144
 *
 * @param diameterIn - Inside diameter, above 0 [in]
 * @returns Area [ft2]
 * @throws {DomainError} When the diameter is not positive
 * @source Plane geometry
 * @example
 * roundArea(15) // => 1.2272
 */
export function roundArea(diameterIn: Inch): SquareFoot {
  requirePositive("diameterIn", diameterIn);
  return squareFeetFromSquareInches(requireFiniteResult("diameterIn squared", (Math.PI * diameterIn ** 2) / 4));
}
