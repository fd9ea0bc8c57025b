import { requireBetween } from "../check/require.js";
import { RANKINE_AT_ZERO_FAHRENHEIT } from "../units/factors.js";
import type { Fahrenheit, Psi } from "../units/quantity.js";

/** The triple point of water, where the curve over ice meets the curve over water. */
const TRIPLE_POINT_F = 32.018;

/**
 * Returns the vapor pressure of water in saturated air.
 *
 * ln p = C1 / T + C2 + C3 · T + C4 · T² + C5 · T³ + C6 · T⁴ + C7 · ln T, with T in degR; over ice below 32.018 degF,
 * over water above it
 *
 * @param tempF - Temperature, −148 to 392 [degF]
 * @returns Saturation pressure [psi]
 * @throws {DomainError} When the temperature is outside the range of the formula
 * @source Hyland and Wexler 1983, as ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 5 and 6 (coded in psychrolib 1.1.1)
 * @example
 * saturationPressure(70) // => 0.3633
 */
export function saturationPressure(tempF: Fahrenheit): Psi {
  requireBetween("tempF", tempF, -148, 392);
  const t = tempF + RANKINE_AT_ZERO_FAHRENHEIT;
  const logPressure =
    tempF <= TRIPLE_POINT_F
      ? -1.0214165e4 / t -
        4.8932428 -
        5.3765794e-3 * t +
        1.9202377e-7 * t ** 2 +
        3.5575832e-10 * t ** 3 -
        9.0344688e-14 * t ** 4 +
        4.1635019 * Math.log(t)
      : -1.0440397e4 / t -
        1.129465e1 -
        2.7022355e-2 * t +
        1.289036e-5 * t ** 2 -
        2.4780681e-9 * t ** 3 +
        6.5459673 * Math.log(t);
  return Math.exp(logPressure);
}
