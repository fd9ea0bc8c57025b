import { requireAtLeast } from "../check/require.js";

/**
 * Returns the standard uncertainty that the last digit of a display leaves, which no repeating takes away.
 *
 * u = δ / √12
 *
 * Readings that are all alike do not prove that nothing scatters: within half a step on either side the meter shows
 * the same.
 *
 * @param resolution - Smallest step of the display, 0 where it is not known [same unit]
 * @returns Least standard uncertainty of a reading, and of a mean of readings [same unit]
 * @throws {DomainError} When the step is negative or not finite
 * @source JCGM 100:2008 (GUM), F.2.2.1
 * @example
 * resolutionUncertainty(10) // => 2.8868
 */
export function resolutionUncertainty(resolution: number): number {
  requireAtLeast("resolution", resolution, 0);
  return resolution / Math.sqrt(12);
}
