import { requirePositive } from "../check/require.js";
import type { Inch } from "../units/quantity.js";

/** Cross-section of a round duct, measured inside the lining. */
export interface RoundDuct {
  readonly shape: "round";
  readonly diameterIn: Inch;
}

/** Cross-section of a rectangular duct, measured inside the lining; the probe crosses the width. */
export interface RectangularDuct {
  readonly shape: "rectangular";
  readonly widthIn: Inch;
  readonly heightIn: Inch;
}

export type DuctSection = RoundDuct | RectangularDuct;

/** Refuses a section without a size. */
export function requireDuctSection(section: DuctSection): void {
  if (section.shape === "round") {
    requirePositive("diameterIn", section.diameterIn);
  } else {
    requirePositive("widthIn", section.widthIn);
    requirePositive("heightIn", section.heightIn);
  }
}
