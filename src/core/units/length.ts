import { converted } from "./converted.js";
import { METERS_PER_FOOT, MILLIMETERS_PER_INCH } from "./factors.js";
import type { Foot, Inch, Meter, Millimeter } from "./quantity.js";

/**
 * Returns in inches what is given in millimeters.
 *
 * in = mm / 25.4
 *
 * @param lengthMm - Length, any finite number [mm]
 * @returns Length [in]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * inchesFromMillimeters(254) // => 10
 */
export function inchesFromMillimeters(lengthMm: Millimeter): Inch {
  return converted("lengthMm", lengthMm, lengthMm / MILLIMETERS_PER_INCH);
}

/**
 * Returns in millimeters what is given in inches.
 *
 * mm = in · 25.4
 *
 * @param lengthIn - Length, any finite number [in]
 * @returns Length [mm]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * millimetersFromInches(6) // => 152.4
 */
export function millimetersFromInches(lengthIn: Inch): Millimeter {
  return converted("lengthIn", lengthIn, lengthIn * MILLIMETERS_PER_INCH);
}

/**
 * Returns in feet what is given in meters.
 *
 * ft = m / 0.3048
 *
 * @param lengthM - Length or elevation, any finite number [m]
 * @returns Length or elevation [ft]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * feetFromMeters(1609.344) // => 5280
 */
export function feetFromMeters(lengthM: Meter): Foot {
  return converted("lengthM", lengthM, lengthM / METERS_PER_FOOT);
}

/**
 * Returns in meters what is given in feet.
 *
 * m = ft · 0.3048
 *
 * @param lengthFt - Length or elevation, any finite number [ft]
 * @returns Length or elevation [m]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * metersFromFeet(10) // => 3.048
 */
export function metersFromFeet(lengthFt: Foot): Meter {
  return converted("lengthFt", lengthFt, lengthFt * METERS_PER_FOOT);
}
