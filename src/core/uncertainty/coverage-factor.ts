import { COVERAGE_FACTORS } from "../../../shared/tables/coverage-factors.js";
import { DomainError } from "../check/domain-error.js";

/** Two equal scatters have a whole number of degrees of freedom together, but for the arithmetic. */
const ROUNDING = 1e-9;

/** Up to here the table has every whole number, and the factor falls steeply between two of them. */
const STEEP_BELOW = 20;

/**
 * Returns the factor that widens a standard uncertainty to a ± (95 %).
 *
 * k = Student's t for 95.45 %
 *
 * With 2 from ten degrees on, as is often done, the ± would hold 92.7 % there.
 *
 * @param degreesOfFreedom - Effective degrees of freedom, 1 or more; below 20 taken between two rows of the table, then by the lower
 * @returns Coverage factor, 2 for certain parts [factor]
 * @throws {DomainError} When there is less than one degree of freedom
 * @source JCGM 100:2008 (GUM), G.4.1, G.6.6 and table G.2 (from memory; the values are derived)
 * @example
 * coverageFactor(2) // => 4.53
 */
export function coverageFactor(degreesOfFreedom: number): number {
  if (!(degreesOfFreedom >= 1)) throw new DomainError("degreesOfFreedom", "1 or more", degreesOfFreedom);
  const nearest = Math.round(degreesOfFreedom);
  const counted = Math.abs(degreesOfFreedom - nearest) < ROUNDING ? nearest : degreesOfFreedom;
  const lower = factorFrom(counted);
  if (counted >= STEEP_BELOW) return lower;
  return lower + (factorFrom(counted + 1) - lower) * (counted % 1);
}

const FROM_DEGREES = COVERAGE_FACTORS.map(([degreesOfFreedom]) => degreesOfFreedom);
const FACTORS = COVERAGE_FACTORS.map(([, factor]) => factor);

/** The factor of the last row of the table that is not above so many degrees of freedom. */
function factorFrom(degreesOfFreedom: number): number {
  let row = 0;
  while (row < FROM_DEGREES.length && degreesOfFreedom >= (FROM_DEGREES[row] as number)) row += 1;
  return FACTORS[row - 1] ?? 2;
}
