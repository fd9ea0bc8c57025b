import { flatOval } from "../openings/flat-oval.js";
import type { Inch } from "../units/quantity.js";
import { type AnyDuctSection, requireDuctSection } from "./duct-section.js";

/**
 * Returns the diameter in which distances to a disturbance are counted.
 *
 * Round: Dh = D. Rectangular: Dh = 2 · W · H / (W + H), not the diameter of equal friction. Flat oval: Dh = 4 · A / P
 *
 * @param section - Inside dimensions, above 0
 * @returns Hydraulic diameter [in]
 * @throws {DomainError} When a dimension is not positive
 * @source 40 CFR 60 App. A-1, Method 1, §12.1 (the equation read in Bay Area AQMD ST-18, §3.3)
 * @example
 * hydraulicDiameter({ shape: "rectangular", widthIn: 24, heightIn: 12 }) // => 16
 */
export function hydraulicDiameter(section: AnyDuctSection): Inch {
  requireDuctSection(section);
  if (section.shape === "round") return section.diameterIn;
  if (section.shape === "flat oval") {
    const { areaIn2, perimeterIn } = flatOval(section.majorIn, section.minorIn);
    return 4 * (areaIn2 / perimeterIn);
  }
  const { widthIn, heightIn } = section;
  // Divided first, so that neither a huge nor a tiny duct leaves the range of numbers on the way.
  return 2 * widthIn * (heightIn / (widthIn + heightIn));
}
