import { requireAtLeast, requireFiniteResult, requireSome } from "../check/require.js";

/**
 * Returns the uncertainty of a sum whose parts all err in the same direction.
 *
 * U = Σ Uᵢ
 *
 * One instrument that reads high reads high at every outlet, and so does one factor that was assumed for all faces.
 * Where the parts err independently of each other, the root of the squares holds instead. Seldom is the truth larger.
 *
 * @param contributions - The uncertainty of each part, at least one, each 0 or more [same unit]
 * @returns Uncertainty of the sum, of the same kind as its parts [same unit]
 * @throws {DomainError} When there is no contribution or one of them is negative
 * @source JCGM 100:2008 (GUM), 5.2.2, note 1: correlation coefficients of +1 (from memory, unverified)
 * @example
 * sharedUncertainty([3, 4]) // => 7
 */
export function sharedUncertainty(contributions: readonly number[]): number {
  requireSome("contributions", contributions);
  for (const contribution of contributions) requireAtLeast("contributions", contribution, 0);
  return requireFiniteResult(
    "sharedUncertainty",
    contributions.reduce((sum, contribution) => sum + contribution, 0),
  );
}
