import { requireAtLeast, requireFiniteResult } from "../check/require.js";
import type { Inch } from "../units/quantity.js";

/** What stands behind the whole inches, by the number of eighths over: the finest line read off a tape. */
const FRACTIONS = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"] as const;

/**
 * Returns a length as a tape in inches is read, to the nearest 1/8 in.
 *
 * eighths = round(8 · length), half an eighth upwards
 *
 * @param lengthIn - Length, 0 or more [in]
 * @returns Whole inches and a fraction in lowest terms, without a unit mark: "2 7/8", "10", "3/8"
 * @throws {DomainError} When the length is negative or not finite
 * @source Common practice, no source
 * @example
 * tapeText(2.93) // => "2 7/8"
 */
export function tapeText(lengthIn: Inch): string {
  requireAtLeast("lengthIn", lengthIn, 0);
  const eighths = requireFiniteResult("tapeText", Math.round(lengthIn * FRACTIONS.length));
  const inches = Math.floor(eighths / FRACTIONS.length);
  const fraction = FRACTIONS[eighths % FRACTIONS.length];
  if (!fraction) return String(inches);
  return inches === 0 ? fraction : `${inches} ${fraction}`;
}
