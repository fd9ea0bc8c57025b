import type { Count, Ratio } from "../units/quantity.js";
import { mirrored } from "./mirrored.js";
import { requireEvenPoints } from "./point-limits.js";

/**
 * Returns the positions on a diameter that halve the area of each of N/2 equal annuli.
 *
 * x = ½ · (1 ∓ √((2k − 1) / N)), k = 1 … N/2 from the center
 *
 * @param pointsPerDiameter - Points on the whole diameter, even, 2 to 200
 * @returns Distances from the inside wall as fractions of the inside diameter, ascending [ratio]
 * @throws {DomainError} When the number of points is not an even number from 2 to 200
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.1.1 (any equation that gives the values of Table 1-2);
 *   Bay Area AQMD Manual of Procedures vol. IV, ST-18, §3.2 (the equation)
 * @example
 * equalAreaDiameterPoints(4) // => [0.067, 0.25, 0.75, 0.933]
 */
export function equalAreaDiameterPoints(pointsPerDiameter: Count): readonly Ratio[] {
  requireEvenPoints("pointsPerDiameter", pointsPerDiameter, 2);
  const annuli = pointsPerDiameter / 2;
  const fromWallInwards = Array.from({ length: annuli }, (_, index) => annuli - index);
  return mirrored(fromWallInwards.map((k) => (1 - Math.sqrt((2 * k - 1) / pointsPerDiameter)) / 2));
}
