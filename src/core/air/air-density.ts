import type { Fahrenheit, Foot, LbFt3, Percent } from "../units/quantity.js";
import { airDensityAtPressure } from "./air-density-at-pressure.js";
import { pressureAtElevation } from "./pressure-at-elevation.js";

/**
 * Returns the density of air at an elevation in the standard atmosphere, from temperature and relative humidity.
 *
 * ρ = (1 + W) · p / (0.370486 · (t + 459.67) · (1 + 1.607858 · W)), with p the standard pressure at the elevation
 *
 * @param tempF - Dry-bulb temperature, −148 to 392 [degF]
 * @param elevationFt - Elevation above sea level, −16500 to 36000 [ft]
 * @param relativeHumidityPercent - Relative humidity, 0 to 100 [%]
 * @returns Density [lb/ft3]
 * @throws {DomainError} When an argument is out of its range
 * @source ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 3, 20, 22 and 26
 * @example
 * airDensity(70, 5280, 0) // => 0.06166
 */
export function airDensity(tempF: Fahrenheit, elevationFt: Foot, relativeHumidityPercent: Percent): LbFt3 {
  return airDensityAtPressure(tempF, pressureAtElevation(elevationFt), relativeHumidityPercent);
}
