import { requireAtLeast, requirePositive } from "../check/require.js";

/**
 * Returns the standard uncertainty behind a ± that a certificate states with its coverage factor.
 *
 * u = U / k
 *
 * @param expanded - The stated ±, 0 or more [same unit]
 * @param coverageFactor - The k of the certificate, 2 for about 95 %, above 0 [factor]
 * @returns Standard uncertainty [same unit]
 * @throws {DomainError} When the stated ± is negative or the coverage factor is not positive
 * @source JCGM 100:2008 (GUM), 4.3.3
 * @example
 * standardFromExpanded(12, 2) // => 6
 */
export function standardFromExpanded(expanded: number, coverageFactor: number): number {
  requireAtLeast("expanded", expanded, 0);
  requirePositive("coverageFactor", coverageFactor);
  return expanded / coverageFactor;
}
