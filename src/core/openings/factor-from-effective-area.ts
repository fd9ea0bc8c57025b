import { DomainError } from "../check/domain-error.js";
import { requirePositive } from "../check/require.js";
import type { Ratio, SquareFoot } from "../units/quantity.js";

/**
 * Returns the free-area factor of an opening whose maker publishes an effective area.
 *
 * F = A_effective / A
 *
 * The published area holds for one face, one size, one setting of its vanes and one way of holding one instrument.
 *
 * @param effectiveAreaFt2 - Published effective area, above 0, at most the whole opening [ft2]
 * @param areaFt2 - Area of the whole opening, above 0 [ft2]
 * @returns Factor, above 0, at most 1 [ratio]
 * @throws {DomainError} When an area is not positive or the effective area is larger than the opening
 * @source Derived: the factor that gives velocity · effective area = velocity · area · factor
 * @example
 * factorFromEffectiveArea(0.36, 0.5) // => 0.72
 */
export function factorFromEffectiveArea(effectiveAreaFt2: SquareFoot, areaFt2: SquareFoot): Ratio {
  requirePositive("areaFt2", areaFt2);
  if (!(effectiveAreaFt2 > 0 && effectiveAreaFt2 <= areaFt2)) {
    throw new DomainError("effectiveAreaFt2", `above 0 and at most areaFt2, ${areaFt2}`, effectiveAreaFt2);
  }
  return effectiveAreaFt2 / areaFt2;
}
