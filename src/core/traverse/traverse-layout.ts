import type { Count } from "../units/quantity.js";

/** How many points, and on how many lines: diameters of a round duct, rows of holes in a rectangular one. */
export interface TraverseLayout {
  readonly lines: Count;
  readonly pointsPerLine: Count;
  /** Document and section that the number comes from, or what is known of it. */
  readonly source: string;
}
