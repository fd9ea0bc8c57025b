import { converted } from "./converted.js";
import { METERS_PER_SECOND_PER_FPM } from "./factors.js";
import type { Fpm, MeterPerSecond } from "./quantity.js";

/**
 * Returns in feet per minute what is given in meters per second.
 *
 * fpm = m/s / 0.00508
 *
 * @param velocityMps - Velocity, any finite number [m/s]
 * @returns Velocity [fpm]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * fpmFromMetersPerSecond(2) // => 393.7
 */
export function fpmFromMetersPerSecond(velocityMps: MeterPerSecond): Fpm {
  return converted("velocityMps", velocityMps, velocityMps / METERS_PER_SECOND_PER_FPM);
}

/**
 * Returns in meters per second what is given in feet per minute.
 *
 * m/s = fpm · 0.00508
 *
 * @param velocityFpm - Velocity, any finite number [fpm]
 * @returns Velocity [m/s]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * metersPerSecondFromFpm(400) // => 2.032
 */
export function metersPerSecondFromFpm(velocityFpm: Fpm): MeterPerSecond {
  return converted("velocityFpm", velocityFpm, velocityFpm * METERS_PER_SECOND_PER_FPM);
}
