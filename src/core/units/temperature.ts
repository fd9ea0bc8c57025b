import { converted } from "./converted.js";
import { FAHRENHEIT_AT_ZERO_CELSIUS, FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE } from "./factors.js";
import type { Celsius, CelsiusDifference, Fahrenheit, FahrenheitDifference } from "./quantity.js";

/**
 * Returns the Fahrenheit temperature of a Celsius temperature.
 *
 * degF = 1.8 · degC + 32
 *
 * @param tempC - Temperature, any finite number [degC]
 * @returns The same temperature [degF]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * fahrenheitFromCelsius(20) // => 68
 */
export function fahrenheitFromCelsius(tempC: Celsius): Fahrenheit {
  return converted("tempC", tempC, tempC * FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE + FAHRENHEIT_AT_ZERO_CELSIUS);
}

/**
 * Returns the Celsius temperature of a Fahrenheit temperature.
 *
 * degC = (degF − 32) / 1.8
 *
 * @param tempF - Temperature, any finite number [degF]
 * @returns The same temperature [degC]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * celsiusFromFahrenheit(70) // => 21.11
 */
export function celsiusFromFahrenheit(tempF: Fahrenheit): Celsius {
  return converted("tempF", tempF, (tempF - FAHRENHEIT_AT_ZERO_CELSIUS) / FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE);
}

/**
 * Returns in Fahrenheit degrees a temperature difference given in Celsius degrees.
 *
 * degF difference = 1.8 · degC difference
 *
 * @param differenceC - Temperature difference, any finite number [degC difference]
 * @returns The same difference, without the offset of 32 [degF difference]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * fahrenheitDifferenceFromCelsius(10) // => 18
 */
export function fahrenheitDifferenceFromCelsius(differenceC: CelsiusDifference): FahrenheitDifference {
  return converted("differenceC", differenceC, differenceC * FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE);
}

/**
 * Returns in Celsius degrees a temperature difference given in Fahrenheit degrees.
 *
 * degC difference = degF difference / 1.8
 *
 * @param differenceF - Temperature difference, any finite number [degF difference]
 * @returns The same difference, without the offset of 32 [degC difference]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * celsiusDifferenceFromFahrenheit(20) // => 11.11
 */
export function celsiusDifferenceFromFahrenheit(differenceF: FahrenheitDifference): CelsiusDifference {
  return converted("differenceF", differenceF, differenceF / FAHRENHEIT_DEGREES_PER_CELSIUS_DEGREE);
}
