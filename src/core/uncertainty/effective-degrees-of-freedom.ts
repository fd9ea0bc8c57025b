import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireSome } from "../check/require.js";

/** One part of a combined uncertainty and how well it is known itself. */
export interface Contribution {
  /** Its contribution to the standard uncertainty of the result, in one unit for all. */
  readonly standard: number;
  /** Repeats less one; Infinity for limits taken as certain. */
  readonly degreesOfFreedom: number;
}

/**
 * Returns the degrees of freedom of a combined uncertainty by the Welch-Satterthwaite formula.
 *
 * ν = u⁴ / Σ(uᵢ⁴ / νᵢ)
 *
 * @param contributions - Independent parts, each with its standard uncertainty (0 or more) and degrees of freedom
 *   (1 or more, Infinity allowed)
 * @returns Effective degrees of freedom; Infinity when no part counts that was found by repeating [count]
 * @throws {DomainError} When there is no part, an uncertainty is negative or a part has less than one degree of freedom
 * @source JCGM 100:2008 (GUM), G.4.1
 * @example
 * effectiveDegreesOfFreedom([{ standard: 3, degreesOfFreedom: 2 }, { standard: 4, degreesOfFreedom: 4 }]) // => 5.9809
 */
export function effectiveDegreesOfFreedom(contributions: readonly Contribution[]): number {
  requireSome("contributions", contributions);
  for (const part of contributions) {
    requireAtLeast("standard", part.standard, 0);
    if (!(part.degreesOfFreedom >= 1)) throw new DomainError("degreesOfFreedom", "1 or more", part.degreesOfFreedom);
  }
  const combined = Math.hypot(...contributions.map((part) => part.standard));
  if (combined === 0) return Number.POSITIVE_INFINITY;
  const doubt = contributions.reduce((sum, part) => sum + (part.standard / combined) ** 4 / part.degreesOfFreedom, 0);
  return 1 / doubt;
}
