import { requireAtLeast } from "../check/require.js";
import { millimetersFromInches } from "../units/length.js";
import type { Inch } from "../units/quantity.js";

/**
 * Returns a length as a tape in millimeters is read, to the nearest whole millimeter.
 *
 * mm = round(25.4 · length)
 *
 * @param lengthIn - Length, 0 or more [in]
 * @returns Whole millimeters, without a unit mark: "74"
 * @throws {DomainError} When the length is negative or not finite
 * @source Common practice, no source
 * @example
 * tapeTextMm(2.93) // => "74"
 */
export function tapeTextMm(lengthIn: Inch): string {
  requireAtLeast("lengthIn", lengthIn, 0);
  return String(Math.round(millimetersFromInches(lengthIn)));
}
