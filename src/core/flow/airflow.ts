import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, Fpm, SquareFoot } from "../units/quantity.js";

/**
 * Returns the volume of air that crosses a free area at a mean velocity.
 *
 * Q = V · A
 *
 * @param velocityFpm - Mean velocity over the free area; negative where the air runs backwards [fpm]
 * @param freeAreaFt2 - Area that the louvers leave free, above 0 [ft2]
 * @returns Airflow, with the sign of the velocity [cfm]
 * @throws {DomainError} When the velocity is not finite or the area is not positive
 * @source Continuity; NAVFAC MO-114 vol. 3, ch. 2, question 2-4
 * @example
 * airflow(400, 2.5) // => 1000
 */
export function airflow(velocityFpm: Fpm, freeAreaFt2: SquareFoot): Cfm {
  requireFinite("velocityFpm", velocityFpm);
  requirePositive("freeAreaFt2", freeAreaFt2);
  return requireFiniteResult("airflow", velocityFpm * freeAreaFt2);
}
