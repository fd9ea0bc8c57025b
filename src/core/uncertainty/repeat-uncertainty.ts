import { DomainError } from "../check/domain-error.js";
import { requirePositive } from "../check/require.js";
import type { Percent } from "../units/quantity.js";
import { resolutionUncertainty } from "./resolution-uncertainty.js";

/** What repeating a whole sweep or traverse tells. */
export interface RepeatUncertainty {
  /** Mean of the repeated results, in their unit. */
  readonly mean: number;
  /** Relative standard uncertainty of that mean. */
  readonly standardPercent: Percent;
  /** Repeats less one. */
  readonly degreesOfFreedom: number;
}

/**
 * Returns the standard uncertainty of the mean of whole sweeps or traverses repeated at one place.
 *
 * u = s / √n, s² = Σ(x − x̄)² / (n − 1); at least δ / √12 of a display in steps of δ
 *
 * Each value is the result of one complete sweep or traverse. The points inside one traverse differ because the air
 * moves faster in the middle than at the wall: that is the profile, not chance, and does not belong here.
 *
 * @param repeatedMeans - Results of whole repeats, at least two, each above 0 [same unit]
 * @param resolution - Smallest step of the meter's display, 0 where it is not known [same unit]
 * @returns Mean, relative standard uncertainty of the mean and degrees of freedom
 * @throws {DomainError} When there are fewer than two repeats, one of them is not positive, or the step is negative
 * @source JCGM 100:2008 (GUM), 4.2 and F.2.2.1
 * @example
 * repeatUncertainty([400, 410, 390], 1).standardPercent // => 1.4434
 */
export function repeatUncertainty(repeatedMeans: readonly number[], resolution: number): RepeatUncertainty {
  if (repeatedMeans.length < 2) {
    throw new DomainError("repeatedMeans", "at least two whole repeats", repeatedMeans.length);
  }
  for (const repeated of repeatedMeans) requirePositive("repeatedMeans", repeated);
  const count = repeatedMeans.length;
  const mean = repeatedMeans.reduce((sum, repeated) => sum + repeated / count, 0);
  const relative = repeatedMeans.map((repeated) => repeated / mean - 1);
  const variance = relative.reduce((sum, deviation) => sum + deviation * deviation, 0) / (count - 1);
  const standard = Math.max(Math.sqrt(variance / count), resolutionUncertainty(resolution) / mean);
  return { mean, standardPercent: 100 * standard, degreesOfFreedom: count - 1 };
}
