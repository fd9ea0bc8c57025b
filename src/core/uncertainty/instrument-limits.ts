import { requireAtLeast, requirePositive } from "../check/require.js";
import type { Fpm, Percent } from "../units/quantity.js";

/**
 * Returns the ± that a data sheet "±(x % of reading + y)" allows at one reading.
 *
 * a = x / 100 · V + y
 *
 * @param readingFpm - What the instrument shows, above 0 [fpm]
 * @param ofReadingPercent - The x of the data sheet, 0 or more [%]
 * @param fixedFpm - The y of the data sheet, 0 or more; it rules at low velocity [fpm]
 * @returns Half-width of the limits around the reading [fpm]
 * @throws {DomainError} When the reading is not positive or a part of the specification is negative
 * @source Form of makers' data sheets (common practice, no source)
 * @example
 * instrumentLimits(400, 3, 20) // => 32
 */
export function instrumentLimits(readingFpm: Fpm, ofReadingPercent: Percent, fixedFpm: Fpm): Fpm {
  requirePositive("readingFpm", readingFpm);
  requireAtLeast("ofReadingPercent", ofReadingPercent, 0);
  requireAtLeast("fixedFpm", fixedFpm, 0);
  return (ofReadingPercent / 100) * readingFpm + fixedFpm;
}
