import type { Count, Ratio } from "../units/quantity.js";
import { annulusMeans } from "./annulus-means.js";
import { mirrored } from "./mirrored.js";
import { requireEvenPoints } from "./point-limits.js";

/** The two positions whose mean of y and mean of ln y equal those of the annulus: the roots of y² − 2·a·y + g² = 0. */
function pairIn(innerRadius: number, outerRadius: number): readonly [Ratio, Ratio] {
  const { mean, logMean } = annulusMeans(innerRadius, outerRadius);
  const farther = mean + Math.sqrt((mean - logMean) * (mean + logMean));
  return [logMean ** 2 / farther, farther];
}

/**
 * Returns the log-linear positions on a diameter, where a profile u = A + B · ln y + C · y has its mean.
 *
 * An even number m of points per radius: m/2 equal annuli hold two points each, with y₁ + y₂ = 2 · mean y and
 * ln y₁ + ln y₂ = 2 · mean ln y. An odd m: one point at exp(mean ln y) of the outermost 1/m of the area, pairs in the
 * rest.
 *
 * @param pointsPerDiameter - Points on the whole diameter, even, 4 to 200; one point per radius cannot follow a
 *   profile with two terms
 * @returns Distances from the inside wall as fractions of the inside diameter, ascending [ratio]
 * @throws {DomainError} When the number of points is not an even number from 4 to 200
 * @source ISO 5802:2001, Table 3 (6 and 8 points); other counts derived from the same conditions
 * @example
 * logLinearDiameterPoints(6) // => [0.032, 0.135, 0.321, 0.679, 0.865, 0.968]
 */
export function logLinearDiameterPoints(pointsPerDiameter: Count): readonly Ratio[] {
  requireEvenPoints("pointsPerDiameter", pointsPerDiameter, 4);
  const pointsPerRadius = pointsPerDiameter / 2;
  const pairs = Math.floor(pointsPerRadius / 2);
  const isOdd = pointsPerRadius % 2 === 1;
  const pairedRadius = isOdd ? Math.sqrt(1 - 1 / pointsPerRadius) : 1;
  const wallPoints = isOdd ? [annulusMeans(pairedRadius, 1).logMean] : [];
  const pairPoints = Array.from({ length: pairs }, (_, fromWall) => {
    const outer = pairs - fromWall;
    return pairIn(pairedRadius * Math.sqrt((outer - 1) / pairs), pairedRadius * Math.sqrt(outer / pairs));
  });
  return mirrored([...wallPoints, ...pairPoints.flat()]);
}
