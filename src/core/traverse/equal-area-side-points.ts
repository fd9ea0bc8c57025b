import { DomainError } from "../check/domain-error.js";
import type { Count, Ratio } from "../units/quantity.js";
import { MOST_POINTS_PER_LINE } from "./point-limits.js";

/**
 * Returns the centers of n equal cells along the side of a rectangular duct.
 *
 * x = (k − ½) / n, k = 1 … n
 *
 * @param pointsPerSide - Points along the side, 1 to 200
 * @returns Distances from the inside wall as fractions of the inside dimension, ascending [ratio]
 * @throws {DomainError} When the number of points is not a whole number from 1 to 200
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.4.1
 * @example
 * equalAreaSidePoints(4) // => [0.125, 0.375, 0.625, 0.875]
 */
export function equalAreaSidePoints(pointsPerSide: Count): readonly Ratio[] {
  if (!(Number.isSafeInteger(pointsPerSide) && pointsPerSide >= 1 && pointsPerSide <= MOST_POINTS_PER_LINE)) {
    throw new DomainError("pointsPerSide", `a whole number from 1 to ${MOST_POINTS_PER_LINE}`, pointsPerSide);
  }
  return Array.from({ length: pointsPerSide }, (_, index) => (index + 0.5) / pointsPerSide);
}
