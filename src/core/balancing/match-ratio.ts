import { requireAtLeast, requirePositive } from "../check/require.js";
import type { Ratio } from "../units/quantity.js";

/**
 * Returns how near two ratios must come to count as matched, so that a band holds them all at the end.
 *
 * t = (c − 1) / (c + 1), c = ∛(high / low)
 *
 * An outlet may miss its key, the key's branch its own, and both add up at the far end of the system: with this t the
 * highest and lowest ratio of all still fit into the band once the fan is set.
 *
 * @param lowRatio - Lower end of the band around design, above 0 [ratio]
 * @param highRatio - Upper end of the band, at least the lower [ratio]
 * @returns Allowed difference, as a part of the key's ratio [ratio]
 * @throws {DomainError} When the lower end is not positive or the upper end is below it
 * @source Derived from ((1 + t) / (1 − t))³ = high / low
 * @example
 * matchRatio(0.95, 1.1) // => 0.0244
 */
export function matchRatio(lowRatio: Ratio, highRatio: Ratio): Ratio {
  requirePositive("lowRatio", lowRatio);
  requireAtLeast("highRatio", highRatio, lowRatio);
  const step = Math.cbrt(highRatio / lowRatio);
  return (step - 1) / (step + 1);
}
