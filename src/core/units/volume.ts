import { converted } from "./converted.js";
import { CUBIC_METERS_PER_CUBIC_FOOT } from "./factors.js";
import type { CubicFoot, CubicMeter } from "./quantity.js";

/**
 * Returns in cubic feet what is given in cubic meters.
 *
 * ft3 = m3 / 0.028316846592
 *
 * @param volumeM3 - Volume, any finite number [m3]
 * @returns Volume [ft3]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * cubicFeetFromCubicMeters(1) // => 35.3147
 */
export function cubicFeetFromCubicMeters(volumeM3: CubicMeter): CubicFoot {
  return converted("volumeM3", volumeM3, volumeM3 / CUBIC_METERS_PER_CUBIC_FOOT);
}

/**
 * Returns in cubic meters what is given in cubic feet.
 *
 * m3 = ft3 · 0.028316846592
 *
 * @param volumeFt3 - Volume, any finite number [ft3]
 * @returns Volume [m3]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * cubicMetersFromCubicFeet(1000) // => 28.31685
 */
export function cubicMetersFromCubicFeet(volumeFt3: CubicFoot): CubicMeter {
  return converted("volumeFt3", volumeFt3, volumeFt3 * CUBIC_METERS_PER_CUBIC_FOOT);
}
