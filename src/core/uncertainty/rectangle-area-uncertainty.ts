import { requireAtLeast, requirePositive } from "../check/require.js";
import type { Inch, Percent } from "../units/quantity.js";
import { standardFromLimits } from "./standard-from-limits.js";

/**
 * Returns the standard uncertainty of a rectangle's area when each side is measured to within a tolerance.
 *
 * u(A) / A = √((u / w)² + (u / h)²), u = t / √3
 *
 * @param widthIn - Width, above 0 [in]
 * @param heightIn - Height, above 0 [in]
 * @param toleranceIn - The ± of each side, 0 or more [in]
 * @returns Relative standard uncertainty of the area [%]
 * @throws {DomainError} When a side is not positive or the tolerance is negative
 * @source JCGM 100:2008 (GUM), 5.1.6 and 4.3.7
 * @example
 * rectangleAreaUncertainty(12, 6, 0.0625) // => 0.6724
 */
export function rectangleAreaUncertainty(widthIn: Inch, heightIn: Inch, toleranceIn: Inch): Percent {
  requirePositive("widthIn", widthIn);
  requirePositive("heightIn", heightIn);
  requireAtLeast("toleranceIn", toleranceIn, 0);
  const sideIn = standardFromLimits(toleranceIn, "rectangular");
  return 100 * Math.hypot(sideIn / widthIn, sideIn / heightIn);
}
