import type { Ratio } from "../units/quantity.js";

/** Completes positions between the near wall and the center with their mirror images beyond the center. */
export function mirrored(nearHalfRatios: readonly Ratio[]): readonly Ratio[] {
  return [...nearHalfRatios, ...[...nearHalfRatios].reverse().map((position) => 1 - position)];
}
