import { type DesignLimits, limitRatios } from "../design/design-limits.js";
import type { Ratio } from "../units/quantity.js";

/**
 * Returns how near two ratios must come to count as matched, so that the limits hold them all at the end.
 *
 * t = (c − 1) / (c + 1), c = ∛(high / low), high = 1 + plus / 100, low = 1 − minus / 100
 *
 * An outlet may miss its key, the key's branch its own, and both add up at the far end of the system: with this t the
 * highest and lowest ratio of all still fit between the limits once the fan is set.
 *
 * @param limits - How far an outlet may lie from its design
 * @returns Allowed difference, as a part of the key's ratio [ratio]
 * @throws {DomainError} When a limit is out of range
 * @source Derived from ((1 + t) / (1 − t))³ = high / low
 * @example
 * matchRatio({ minusPercent: 5, plusPercent: 10 }) // => 0.0244
 */
export function matchRatio(limits: DesignLimits): Ratio {
  const { lowRatio, highRatio } = limitRatios(limits);
  const step = Math.cbrt(highRatio / lowRatio);
  return (step - 1) / (step + 1);
}
