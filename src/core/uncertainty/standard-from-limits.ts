import { DomainError } from "../check/domain-error.js";
import { requireAtLeast } from "../check/require.js";

/** What is believed about a value between its limits. */
export type LimitShape = "rectangular" | "triangular" | "u-shaped";

/** Square of the divisor that turns a half-width into a standard uncertainty. */
const DIVISOR_SQUARED: Readonly<Record<LimitShape, number>> = { rectangular: 3, triangular: 6, "u-shaped": 2 };

/**
 * Returns the standard uncertainty of a value known only to lie within limits.
 *
 * u = a / √3 (rectangular), a / √6 (triangular), a / √2 (U-shaped)
 *
 * @param halfWidth - The ± of the limits, 0 or more [same unit]
 * @param shape - "rectangular" where any value between the limits is as likely, "triangular" where the middle is
 *   likelier, "u-shaped" where a value swings between its limits
 * @returns Standard uncertainty [same unit]
 * @throws {DomainError} When the half-width is negative or the shape is none of the three
 * @source JCGM 100:2008 (GUM), 4.3.7 and 4.3.9
 * @example
 * standardFromLimits(32, "rectangular") // => 18.475
 */
export function standardFromLimits(halfWidth: number, shape: LimitShape): number {
  requireAtLeast("halfWidth", halfWidth, 0);
  if (!Object.hasOwn(DIVISOR_SQUARED, shape)) {
    throw new DomainError("shape", '"rectangular", "triangular" or "u-shaped"', shape);
  }
  return halfWidth / Math.sqrt(DIVISOR_SQUARED[shape]);
}
