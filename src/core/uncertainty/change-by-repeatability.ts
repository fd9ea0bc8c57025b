import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireFinite } from "../check/require.js";

/** Beyond twice its own doubt a change is unlikely to be chance. */
const SHOWN_ABOVE = 2;

/** The answer to "did it change?". */
export interface ChangeByRepeatability {
  readonly basis: "repeatability";
  /** The change in multiples of its standard uncertainty. */
  readonly z: number;
  readonly isShown: boolean;
  readonly words: string;
}

/**
 * Answers whether a result changed, by how well each of the two repeats.
 *
 * z = |x₂ − x₁| / √(u₁² + u₂²), shown above 2
 *
 * Only for the same instrument, face and operator: there the doubt of area, factor and calibration is in both results
 * alike and leaves the comparison.
 *
 * @param before - Result before the work [same unit]
 * @param after - Result after the work [same unit]
 * @param beforeStandard - Standard uncertainty of the first from repeats, 0 or more [same unit]
 * @param afterStandard - Standard uncertainty of the second from repeats, 0 or more, not both 0 [same unit]
 * @returns The figure z, whether the change is shown, and the sentence for the sheet
 * @throws {DomainError} When a result is not finite, an uncertainty is negative or both are 0
 * @source JCGM 100:2008 (GUM), 5.1.2; the limit of 2 for about 95 % is common practice
 * @example
 * changeByRepeatability(400, 440, 8, 9).z // => 3.3218
 */
export function changeByRepeatability(
  before: number,
  after: number,
  beforeStandard: number,
  afterStandard: number,
): ChangeByRepeatability {
  requireFinite("before", before);
  requireFinite("after", after);
  requireAtLeast("beforeStandard", beforeStandard, 0);
  requireAtLeast("afterStandard", afterStandard, 0);
  const doubt = Math.hypot(beforeStandard, afterStandard);
  if (doubt === 0) throw new DomainError("afterStandard", "above 0 when beforeStandard is 0", afterStandard);
  const z = Math.abs(after - before) / doubt;
  const isShown = z > SHOWN_ABOVE;
  const answer = isShown ? (after > before ? "higher" : "lower") : "no change shown";
  return { basis: "repeatability", z, isShown, words: `${answer} (repeatability: z ${z.toFixed(1)})` };
}
