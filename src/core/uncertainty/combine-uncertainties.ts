import { requireAtLeast, requireFiniteResult, requireSome } from "../check/require.js";

/**
 * Returns the standard uncertainty of a result from the independent contributions to it.
 *
 * u = √(Σ uᵢ²)
 *
 * @param contributions - What each input does to the result: its standard uncertainty times the sensitivity of the
 *   result to it, at least one, each 0 or more [same unit]
 * @returns Combined standard uncertainty [same unit]
 * @throws {DomainError} When there is no contribution or one of them is negative
 * @source JCGM 100:2008 (GUM), 5.1.2
 * @example
 * combineUncertainties([3, 4]) // => 5
 */
export function combineUncertainties(contributions: readonly number[]): number {
  requireSome("contributions", contributions);
  for (const contribution of contributions) requireAtLeast("contributions", contribution, 0);
  return requireFiniteResult("combineUncertainties", Math.hypot(...contributions));
}
