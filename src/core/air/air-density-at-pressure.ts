import type { Fahrenheit, LbFt3, Percent, Psi } from "../units/quantity.js";
import { humidityRatio } from "./humidity-ratio.js";
import { moistAirDensity } from "./moist-air-density.js";

/**
 * Returns the density of air at a measured pressure, from temperature and relative humidity.
 *
 * ρ = (1 + W) · p / (0.370486 · (t + 459.67) · (1 + 1.607858 · W))
 *
 * @param tempF - Dry-bulb temperature, −148 to 392 [degF]
 * @param pressurePsi - Absolute pressure: barometer on site and static pressure in the duct, above 0 [psi]
 * @param relativeHumidityPercent - Relative humidity, 0 to 100 [%]
 * @returns Density [lb/ft3]
 * @throws {DomainError} When an argument is out of its range or the water would boil at this pressure
 * @source ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 20, 22 and 26
 * @example
 * airDensityAtPressure(95, 14.696, 50) // => 0.07076
 */
export function airDensityAtPressure(tempF: Fahrenheit, pressurePsi: Psi, relativeHumidityPercent: Percent): LbFt3 {
  return moistAirDensity(tempF, humidityRatio(tempF, relativeHumidityPercent, pressurePsi), pressurePsi);
}
