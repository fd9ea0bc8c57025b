import { requireFiniteResult, requirePositive } from "../check/require.js";
import { squareFeetFromSquareInches } from "../units/area.js";
import type { Inch, SquareFoot } from "../units/quantity.js";

/**
 * Returns the area of a rectangular opening or duct.
 *
 * A = a · b / 144
 *
 * Measure the core through which the air passes, or the inside of the duct, never the flange or the lining.
 *
 * @param widthIn - One side, above 0 [in]
 * @param heightIn - The other side, above 0 [in]
 * @returns Area [ft2]
 * @throws {DomainError} When a side is not positive
 * @source Plane geometry; NAVFAC MO-114 vol. 3, ch. 2, question 2-3
 * @example
 * rectangleArea(18, 20) // => 2.5
 */
export function rectangleArea(widthIn: Inch, heightIn: Inch): SquareFoot {
  requirePositive("widthIn", widthIn);
  requirePositive("heightIn", heightIn);
  return squareFeetFromSquareInches(requireFiniteResult("widthIn times heightIn", widthIn * heightIn));
}
