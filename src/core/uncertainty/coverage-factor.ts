import { COVERAGE_FACTORS } from "../../../shared/tables/coverage-factors.js";
import { DomainError } from "../check/domain-error.js";

/** Covers about 95 % once an uncertainty is known from ten degrees of freedom or more. */
const USUAL_COVERAGE_FACTOR = 2;

/**
 * Returns the factor that widens a standard uncertainty to a ± at about 95 %.
 *
 * U = k · u, k = 2 from ten degrees of freedom on, Student's t below
 *
 * @param degreesOfFreedom - Effective degrees of freedom, 1 or more; a fraction counts as the whole number below
 * @returns Coverage factor [factor]
 * @throws {DomainError} When there is less than one degree of freedom
 * @source JCGM 100:2008 (GUM), G.4.1, G.6.6 and table G.2 (from memory; the values are derived)
 * @example
 * coverageFactor(2) // => 4.53
 */
export function coverageFactor(degreesOfFreedom: number): number {
  if (!(degreesOfFreedom >= 1)) throw new DomainError("degreesOfFreedom", "1 or more", degreesOfFreedom);
  return COVERAGE_FACTORS[Math.floor(degreesOfFreedom) - 1] ?? USUAL_COVERAGE_FACTOR;
}
