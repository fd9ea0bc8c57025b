import { requirePositive } from "../check/require.js";
import { flatOval } from "../openings/flat-oval.js";
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

/** Cross-section of a flat oval duct, measured inside the lining; the probe crosses the minor axis. */
export interface FlatOvalDuct {
  readonly shape: "flat oval";
  readonly majorIn: Inch;
  readonly minorIn: Inch;
}

/** Ducts of which every line of a traverse has its points at the same depths. */
export type DuctSection = RoundDuct | RectangularDuct;

export type AnyDuctSection = DuctSection | FlatOvalDuct;

/** Refuses a section without a size. */
export function requireDuctSection(section: AnyDuctSection): void {
  if (section.shape === "round") {
    requirePositive("diameterIn", section.diameterIn);
  } else if (section.shape === "flat oval") {
    flatOval(section.majorIn, section.minorIn);
  } else {
    requirePositive("widthIn", section.widthIn);
    requirePositive("heightIn", section.heightIn);
  }
}
