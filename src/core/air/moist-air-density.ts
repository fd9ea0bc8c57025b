import { requireAtLeast, requireBetween, requirePositive } from "../check/require.js";
import { RANKINE_AT_ZERO_FAHRENHEIT } from "../units/factors.js";
import type { Fahrenheit, LbFt3, LbLb, Psi } from "../units/quantity.js";

/** Gas constant of dry air, 53.350 ft·lbf/(lb·degR), over 144 in2 in a square foot: 0.370486. */
const DRY_AIR_CONSTANT = 53.35 / 144;

/**
 * Returns the density of moist air from its temperature, pressure and humidity ratio.
 *
 * ρ = (1 + W) / v, with v = 0.370486 · (t + 459.67) · (1 + 1.607858 · W) / p
 *
 * @param tempF - Dry-bulb temperature, −148 to 392 [degF]
 * @param humidityRatio - Mass of water vapor to one of dry air, 0 or more [lb/lb]
 * @param pressurePsi - Pressure of the air, above 0 [psi]
 * @returns Mass of air and vapor in a volume [lb/ft3]
 * @throws {DomainError} When an argument is out of its range
 * @source ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 26 and table 2
 * @example
 * moistAirDensity(86, 0.02, 14.175) // => 0.06929
 */
export function moistAirDensity(tempF: Fahrenheit, humidityRatio: LbLb, pressurePsi: Psi): LbFt3 {
  requireBetween("tempF", tempF, -148, 392);
  requireAtLeast("humidityRatio", humidityRatio, 0);
  requirePositive("pressurePsi", pressurePsi);
  const volumeFt3Lb =
    (DRY_AIR_CONSTANT * (tempF + RANKINE_AT_ZERO_FAHRENHEIT) * (1 + 1.607858 * humidityRatio)) / pressurePsi;
  return (1 + humidityRatio) / volumeFt3Lb;
}
