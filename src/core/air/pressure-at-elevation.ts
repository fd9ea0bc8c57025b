import { requireBetween } from "../check/require.js";
import type { Foot, Psi } from "../units/quantity.js";

/**
 * Returns the pressure of the standard atmosphere at an elevation.
 *
 * p = 14.696 · (1 − 6.8754e−6 · Z)^5.2559
 *
 * The weather moves the real pressure by a few percent around it; a barometer on site is better.
 *
 * @param elevationFt - Elevation above sea level, −16500 to 36000 [ft]
 * @returns Pressure [psi]
 * @throws {DomainError} When the elevation is outside the range of the formula
 * @source ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 3 (coefficients as coded in psychrolib 1.1.1)
 * @example
 * pressureAtElevation(5280) // => 12.1002
 */
export function pressureAtElevation(elevationFt: Foot): Psi {
  requireBetween("elevationFt", elevationFt, -16_500, 36_000);
  return 14.696 * (1 - 6.8754e-6 * elevationFt) ** 5.2559;
}
