import { DomainError } from "../check/domain-error.js";
import type { Count, Ratio } from "../units/quantity.js";
import { annulusMeans } from "./annulus-means.js";
import { mirrored } from "./mirrored.js";
import { tchebycheffNodes } from "./tchebycheff-nodes.js";

/**
 * Returns the log-Tchebycheff positions on a diameter.
 *
 * With m points per radius, the outermost 1/m of the area is taken to follow a logarithmic profile, with its point at
 * y = exp(mean ln y); the inner m − 1 points are Tchebycheff's equal-weight nodes t in the square of the radius,
 * r² = (1 − 1/m) · (1 + t) / 2, y/D = (1 − r) / 2.
 *
 * @param pointsPerDiameter - Points on the whole diameter, even, 4 to 16 or 20
 * @returns Distances from the inside wall as fractions of the inside diameter, ascending [ratio]
 * @throws {DomainError} When the number of points is not even, 4 to 16 or 20: the inner points are then not all real
 * @source ISO 5802:2001, Table 2 (6 and 8 points); other counts derived from the same conditions
 * @example
 * logTchebycheffDiameterPoints(6) // => [0.032, 0.137, 0.312, 0.688, 0.863, 0.968]
 */
export function logTchebycheffDiameterPoints(pointsPerDiameter: Count): readonly Ratio[] {
  const pointsPerRadius = pointsPerDiameter / 2;
  const nodes =
    Number.isSafeInteger(pointsPerRadius) && pointsPerRadius >= 2 ? tchebycheffNodes(pointsPerRadius - 1) : undefined;
  if (nodes === undefined) {
    throw new DomainError(
      "pointsPerDiameter",
      "an even number from 4 to 16, or 20, for log-Tchebycheff (other counts have no points of equal weight)",
      pointsPerDiameter,
    );
  }
  const innerAreaRatio = 1 - 1 / pointsPerRadius;
  const innerPoints = nodes.map((node) => (1 - Math.sqrt((innerAreaRatio * (1 + node)) / 2)) / 2).reverse();
  return mirrored([annulusMeans(Math.sqrt(innerAreaRatio), 1).logMean, ...innerPoints]);
}
