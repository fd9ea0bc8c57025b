import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { DomainError } from "../check/domain-error.js";
import { requireAtLeast } from "../check/require.js";
import type { Count, Percent } from "../units/quantity.js";

/** How much of the doubt comes from reading at a few points only. */
export interface PointsUncertainty {
  /** Relative standard uncertainty of the mean. */
  readonly standardPercent: Percent;
  readonly degreesOfFreedom: number;
  /** Whether there is but one point, so that the figure is assumed. */
  readonly isAssumed: boolean;
}

/**
 * Returns what reading at a few points of an opening leaves unknown of its mean velocity.
 *
 * u = s / √n, ν = n − 1; one point: 22 %, assumed
 *
 * As if the points were placed by chance. Points placed by a rule on a smooth profile do better, so that this is the
 * upper end; where the air leaves in jets it is what it is.
 *
 * @param pointCount - Points read, 1 or more [count]
 * @param spreadPercent - Standard deviation of the readings over n − 1, in percent of their mean, 0 or more; taken for
 *   0 at one point [%]
 * @returns Relative standard uncertainty of the mean, its degrees of freedom, and whether it is assumed
 * @throws {DomainError} When the count is no whole number from 1 or the spread is negative
 * @source JCGM 100:2008 (GUM), 4.2; that it holds for points over an opening is assumed
 * @example
 * pointsUncertainty(4, 12).standardPercent // => 6
 */
export function pointsUncertainty(pointCount: Count, spreadPercent: Percent): PointsUncertainty {
  if (!(Number.isInteger(pointCount) && pointCount >= 1)) throw new DomainError("points", "1 or more", pointCount);
  requireAtLeast("spreadPercent", spreadPercent, 0);
  if (pointCount === 1) {
    const { standardPercent } = UNCERTAINTY_DEFAULTS.onePoint;
    return { standardPercent, degreesOfFreedom: Number.POSITIVE_INFINITY, isAssumed: true };
  }
  return {
    standardPercent: spreadPercent / Math.sqrt(pointCount),
    degreesOfFreedom: pointCount - 1,
    isAssumed: false,
  };
}
