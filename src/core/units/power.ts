import { converted } from "./converted.js";
import { BTU_PER_HOUR_PER_TON, KILOWATTS_PER_HORSEPOWER, WATTS_PER_BTU_PER_HOUR } from "./factors.js";
import type { BtuPerHour, Horsepower, Kilowatt, Ton, Watt } from "./quantity.js";

/**
 * Returns in Btu per hour what is given in watts.
 *
 * Btu/h = W / 0.293071070…
 *
 * @param powerW - Heat flow, any finite number [W]
 * @returns Heat flow [Btu/h]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * btuPerHourFromWatts(1000) // => 3412.14
 */
export function btuPerHourFromWatts(powerW: Watt): BtuPerHour {
  return converted("powerW", powerW, powerW / WATTS_PER_BTU_PER_HOUR);
}

/**
 * Returns in watts what is given in Btu per hour.
 *
 * W = Btu/h · 0.293071070…
 *
 * @param powerBtuPerHour - Heat flow, any finite number [Btu/h]
 * @returns Heat flow [W]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * wattsFromBtuPerHour(12000) // => 3516.853
 */
export function wattsFromBtuPerHour(powerBtuPerHour: BtuPerHour): Watt {
  return converted("powerBtuPerHour", powerBtuPerHour, powerBtuPerHour * WATTS_PER_BTU_PER_HOUR);
}

/**
 * Returns in tons of refrigeration what is given in Btu per hour.
 *
 * ton = Btu/h / 12 000
 *
 * @param powerBtuPerHour - Cooling, any finite number [Btu/h]
 * @returns Cooling [ton]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8: a ton of refrigeration is 12 000 Btu/h
 * @example
 * tonsFromBtuPerHour(36000) // => 3
 */
export function tonsFromBtuPerHour(powerBtuPerHour: BtuPerHour): Ton {
  return converted("powerBtuPerHour", powerBtuPerHour, powerBtuPerHour / BTU_PER_HOUR_PER_TON);
}

/**
 * Returns in Btu per hour what is given in tons of refrigeration.
 *
 * Btu/h = ton · 12 000
 *
 * @param powerTons - Cooling, in tons of refrigeration, any finite number [ton]
 * @returns Cooling [Btu/h]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8: a ton of refrigeration is 12 000 Btu/h
 * @example
 * btuPerHourFromTons(2.5) // => 30000
 */
export function btuPerHourFromTons(powerTons: Ton): BtuPerHour {
  return converted("powerTons", powerTons, powerTons * BTU_PER_HOUR_PER_TON);
}

/**
 * Returns in horsepower what is given in kilowatts.
 *
 * hp = kW / 0.745699872…
 *
 * @param powerKw - Shaft power, any finite number [kW]
 * @returns Shaft power [hp]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * horsepowerFromKilowatts(1) // => 1.341
 */
export function horsepowerFromKilowatts(powerKw: Kilowatt): Horsepower {
  return converted("powerKw", powerKw, powerKw / KILOWATTS_PER_HORSEPOWER);
}

/**
 * Returns in kilowatts what is given in horsepower.
 *
 * kW = hp · 0.745699872…
 *
 * @param powerHp - Shaft power, any finite number [hp]
 * @returns Shaft power [kW]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * kilowattsFromHorsepower(1) // => 0.7457
 */
export function kilowattsFromHorsepower(powerHp: Horsepower): Kilowatt {
  return converted("powerHp", powerHp, powerHp * KILOWATTS_PER_HORSEPOWER);
}
