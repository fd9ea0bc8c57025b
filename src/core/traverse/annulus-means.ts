import type { Ratio } from "../units/quantity.js";

/** Area means over an annulus of the distance y from the wall, as fractions of the diameter. */
export interface AnnulusMeans {
  /** Mean of y. */
  readonly mean: Ratio;
  /** exp of the mean of ln y: where a logarithmic profile runs at its mean velocity. */
  readonly logMean: Ratio;
}

/** ∫ 2r · ln(1 − r) dr from 0 to r; the logarithm at the wall carries no weight. */
function logIntegral(radius: number): number {
  const logTerm = radius < 1 ? (radius * radius - 1) * Math.log1p(-radius) : 0;
  return logTerm - (radius * radius) / 2 - radius;
}

/**
 * Returns the area means of y and ln y between two radii of a circle of radius 1.
 *
 * With y/D = (1 − r)/2 both integrals have a closed form:
 * mean y = ½ · (1 − ⅔ · (ro³ − ri³) / (ro² − ri²)),
 * mean ln y = (F(ro) − F(ri)) / (ro² − ri²) − ln 2, F(r) = (r² − 1) · ln(1 − r) − r²/2 − r
 */
export function annulusMeans(innerRadius: number, outerRadius: number): AnnulusMeans {
  const areaRatio = outerRadius ** 2 - innerRadius ** 2;
  return {
    mean: (1 - ((2 / 3) * (outerRadius ** 3 - innerRadius ** 3)) / areaRatio) / 2,
    logMean: Math.exp((logIntegral(outerRadius) - logIntegral(innerRadius)) / areaRatio) / 2,
  };
}
