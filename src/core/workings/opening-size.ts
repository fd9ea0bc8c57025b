import type { Inch } from "../units/quantity.js";

/** Shape and inside size of an opening or a duct. */
export type OpeningSize =
  | { readonly shape: "rectangle"; readonly widthIn: Inch; readonly heightIn: Inch }
  | { readonly shape: "round"; readonly diameterIn: Inch }
  | { readonly shape: "flat oval"; readonly majorIn: Inch; readonly minorIn: Inch };
