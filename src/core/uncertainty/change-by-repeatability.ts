import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireFinite } from "../check/require.js";
import { coverageFactor } from "./coverage-factor.js";

/** The answer to "did it change?". */
export interface ChangeByRepeatability {
  /** The change in multiples of its standard uncertainty. */
  readonly z: number;
  readonly coverageFactor: number;
  /** The smallest change that would show, in the unit of the results. */
  readonly smallestShown: number;
  readonly isShown: boolean;
  readonly answer: "higher" | "lower" | "no clear change";
}

/**
 * Answers whether a result changed, by how well each of the two repeats.
 *
 * z = |x₂ − x₁| / √(u₁² + u₂²), shown above k
 *
 * Only for the same instrument, opening and operator: there the doubt of area, factor and calibration is in both
 * results alike and leaves the comparison.
 *
 * @param before - Result before the work [same unit]
 * @param after - Result after the work [same unit]
 * @param beforeStandard - Standard uncertainty of the first from repeats, 0 or more [same unit]
 * @param afterStandard - Standard uncertainty of the second from repeats, 0 or more, not both 0 [same unit]
 * @param degreesOfFreedom - How many repeats the two uncertainties rest on, 1 or more; Infinity where known
 * @returns The figures z and k, the smallest change that would show, and the answer
 * @throws {DomainError} When a result is not finite, an uncertainty is negative, both are 0 or the count is below 1
 * @source JCGM 100:2008 (GUM), 5.1.2 and G.4.1
 * @example
 * changeByRepeatability(400, 440, 8, 9, Infinity).z // => 3.3218
 */
export function changeByRepeatability(
  before: number,
  after: number,
  beforeStandard: number,
  afterStandard: number,
  degreesOfFreedom: number,
): ChangeByRepeatability {
  requireFinite("before", before);
  requireFinite("after", after);
  requireAtLeast("beforeStandard", beforeStandard, 0);
  requireAtLeast("afterStandard", afterStandard, 0);
  const doubt = Math.hypot(beforeStandard, afterStandard);
  if (doubt === 0) throw new DomainError("afterStandard", "above 0 when beforeStandard is 0", afterStandard);
  const factor = coverageFactor(degreesOfFreedom);
  const z = Math.abs(after - before) / doubt;
  const isShown = z > factor;
  const answer = isShown ? (after > before ? "higher" : "lower") : "no clear change";
  return { z, coverageFactor: factor, smallestShown: factor * doubt, isShown, answer };
}
