import { requireFiniteResult, requirePositive } from "../check/require.js";
import type { Inch } from "../units/quantity.js";

/**
 * Returns the diameter of the round duct that loses the same pressure at the same airflow as a rectangular one.
 *
 * De = 1.30 · (a · b)^0.625 / (a + b)^0.25
 *
 * It compares friction. It is neither the diameter of equal area nor the hydraulic one, and no airflow comes from it.
 *
 * @param widthIn - Inside width, above 0 [in]
 * @param heightIn - Inside height, above 0 [in]
 * @returns Diameter of equal friction [in]
 * @throws {DomainError} When a side is not positive
 * @source Huebscher 1948, as printed in a duct-design manual, p. 14.11 (read)
 * @example
 * rectangleEqualFrictionDiameter(24, 12) // => 18.3
 */
export function rectangleEqualFrictionDiameter(widthIn: Inch, heightIn: Inch): Inch {
  requirePositive("widthIn", widthIn);
  requirePositive("heightIn", heightIn);
  // Each side raised by itself, so that a tiny or huge product does not leave the range of numbers on the way.
  const diameterIn = (1.3 * widthIn ** 0.625 * heightIn ** 0.625) / (widthIn + heightIn) ** 0.25;
  return requireFiniteResult("the diameter of equal friction", diameterIn);
}
