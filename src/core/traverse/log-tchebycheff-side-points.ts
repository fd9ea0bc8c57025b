import { DomainError } from "../check/domain-error.js";
import type { Count, Ratio } from "../units/quantity.js";
import { tchebycheffNodes } from "./tchebycheff-nodes.js";

/**
 * Returns the log-Tchebycheff positions along the side of a rectangular duct.
 *
 * The two outermost of n equal strips are taken to follow a logarithmic profile, with its mean at x = 1 / (n · e); the
 * inner n − 2 points are Tchebycheff's equal-weight nodes t mapped on the rest, x = ½ + (½ − 1/n) · t.
 *
 * @param pointsPerSide - Points along the side, 3 to 9 or 11
 * @returns Distances from the inside wall as fractions of the inside dimension, ascending [ratio]
 * @throws {DomainError} When the number of points is not 3 to 9 or 11: the inner points are then not all real
 * @source Derived from the rule's two conditions; the rounded positions for 5, 6 and 7 points are common practice
 * @example
 * logTchebycheffSidePoints(5) // => [0.074, 0.288, 0.5, 0.712, 0.926]
 */
export function logTchebycheffSidePoints(pointsPerSide: Count): readonly Ratio[] {
  const nodes =
    Number.isSafeInteger(pointsPerSide) && pointsPerSide >= 3 ? tchebycheffNodes(pointsPerSide - 2) : undefined;
  if (nodes === undefined) {
    throw new DomainError(
      "pointsPerSide",
      "3 to 9 or 11 for log-Tchebycheff (other counts have no points of equal weight)",
      pointsPerSide,
    );
  }
  const wallPoint = 1 / (pointsPerSide * Math.E);
  const halfInner = 0.5 - 1 / pointsPerSide;
  return [wallPoint, ...nodes.map((node) => 0.5 + halfInner * node), 1 - wallPoint];
}
