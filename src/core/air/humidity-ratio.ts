import { DomainError } from "../check/domain-error.js";
import { requireBetween, requirePositive } from "../check/require.js";
import type { Fahrenheit, LbLb, Percent, Psi } from "../units/quantity.js";
import { saturationPressure } from "./saturation-pressure.js";

/** Mass of a water molecule over that of dry air. */
const MOLECULAR_MASS_RATIO = 0.621945;

/**
 * Returns the mass of water vapor that comes with one mass of dry air.
 *
 * W = 0.621945 · pw / (p − pw), with pw = RH / 100 · saturation pressure
 *
 * @param tempF - Dry-bulb temperature, −148 to 392 [degF]
 * @param relativeHumidityPercent - Relative humidity, 0 to 100 [%]
 * @param pressurePsi - Pressure of the air, above the vapor pressure [psi]
 * @returns Humidity ratio [lb/lb]
 * @throws {DomainError} When an argument is out of its range or the water would boil at this pressure
 * @source ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 20 and 22
 * @example
 * humidityRatio(70, 50, 14.696) // => 0.007783
 */
export function humidityRatio(tempF: Fahrenheit, relativeHumidityPercent: Percent, pressurePsi: Psi): LbLb {
  requireBetween("relativeHumidityPercent", relativeHumidityPercent, 0, 100);
  requirePositive("pressurePsi", pressurePsi);
  const vaporPsi = (relativeHumidityPercent / 100) * saturationPressure(tempF);
  if (vaporPsi >= pressurePsi) {
    throw new DomainError("pressurePsi", `above the vapor pressure, ${vaporPsi.toPrecision(4)}`, pressurePsi);
  }
  return (MOLECULAR_MASS_RATIO * vaporPsi) / (pressurePsi - vaporPsi);
}
