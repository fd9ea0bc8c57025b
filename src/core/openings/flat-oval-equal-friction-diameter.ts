import type { Inch } from "../units/quantity.js";
import { flatOval } from "./flat-oval.js";

/**
 * Returns the diameter of the round duct that loses the same pressure at the same airflow as a flat oval one.
 *
 * De = 1.55 · A^0.625 / P^0.25
 *
 * The exponent also circulates as 0.325. Only 0.625 gives a length: 2 · 0.625 − 0.25 = 1.
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @returns Diameter of equal friction [in]
 * @throws {DomainError} When the minor axis is not positive or the major axis is the smaller one
 * @source Heyt and Diaz 1975, from memory, unverified; the exponent derived from the dimensions
 * @example
 * flatOvalEqualFrictionDiameter(24, 12) // => 17.745
 */
export function flatOvalEqualFrictionDiameter(majorIn: Inch, minorIn: Inch): Inch {
  const { areaIn2, perimeterIn } = flatOval(majorIn, minorIn);
  return (1.55 * areaIn2 ** 0.625) / perimeterIn ** 0.25;
}
