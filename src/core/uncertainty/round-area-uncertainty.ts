import { requireAtLeast, requirePositive } from "../check/require.js";
import type { Inch, Percent } from "../units/quantity.js";
import { standardFromLimits } from "./standard-from-limits.js";

/**
 * Returns the standard uncertainty of a circle's area when its diameter is measured to within a tolerance.
 *
 * u(A) / A = 2 · u / D, u = t / √3
 *
 * @param diameterIn - Diameter, above 0 [in]
 * @param toleranceIn - The ± of the diameter, 0 or more [in]
 * @returns Relative standard uncertainty of the area [%]
 * @throws {DomainError} When the diameter is not positive or the tolerance is negative
 * @source JCGM 100:2008 (GUM), 5.1.6 and 4.3.7
 * @example
 * roundAreaUncertainty(8, 0.0625) // => 0.9021
 */
export function roundAreaUncertainty(diameterIn: Inch, toleranceIn: Inch): Percent {
  requirePositive("diameterIn", diameterIn);
  requireAtLeast("toleranceIn", toleranceIn, 0);
  return (100 * 2 * standardFromLimits(toleranceIn, "rectangular")) / diameterIn;
}
