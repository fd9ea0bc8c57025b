import { DomainError } from "../check/domain-error.js";
import type { DuctSection } from "./duct-section.js";
import { exceeds } from "./exceeds.js";
import { hydraulicDiameter } from "./hydraulic-diameter.js";
import type { TraverseLayout } from "./traverse-layout.js";

/** Diameters between which the minimums change. */
const LARGE_DUCT_IN = 24;
const SMALL_DUCT_IN = 12;
const SMALLEST_DUCT_IN = 4;

const METHOD_1 = "40 CFR 60 App. A-1, Method 1, §11.2.1.1 and 11.2.2";
const METHOD_1A = "40 CFR 60 App. A-1, Method 1A (ducts of 4 to 12 in)";

/**
 * Returns the least number of equal-area points that the stack methods ask for at a good plane.
 *
 * Above 24 in: 12 points; 12 to 24 in: 8 round, 9 rectangular; 4 to 12 in (Method 1A): 8 round, 9 rectangular
 *
 * It holds where the plane is at least 8 diameters behind and 2 before a disturbance. Nearer planes need more points,
 * by a figure of the method that is not reproduced here. Round ducts take half of the points on each of two diameters,
 * rectangular ones 4 by 3, the 4 along the longer side, or 3 by 3.
 *
 * @param section - Inside dimensions, a hydraulic diameter of 4 in or more
 * @returns Lines, points on each, and the method
 * @throws {DomainError} When a dimension is not positive or the duct is smaller than 4 in
 * @source 40 CFR 60 App. A-1, Method 1, §11.2.1.1, and Method 1A
 * @example
 * method1Layout({ shape: "round", diameterIn: 20 })
 * // => { lines: 2, pointsPerLine: 4, source: "40 CFR 60 App. A-1, Method 1, §11.2.1.1 and 11.2.2" }
 */
export function method1Layout(section: DuctSection): TraverseLayout {
  const diameterIn = hydraulicDiameter(section);
  if (exceeds(SMALLEST_DUCT_IN, diameterIn)) {
    if (section.shape === "round")
      throw new DomainError("diameterIn", "4 in (102 mm) or more for Method 1A", diameterIn);
    throw new DomainError(
      "widthIn",
      "wide enough for a hydraulic diameter of 4 in (102 mm) for Method 1A",
      section.widthIn,
    );
  }
  const source = exceeds(SMALL_DUCT_IN, diameterIn) ? METHOD_1A : METHOD_1;
  const isLarge = exceeds(diameterIn, LARGE_DUCT_IN);
  if (section.shape === "round") return { lines: 2, pointsPerLine: isLarge ? 6 : 4, source };
  if (!isLarge) return { lines: 3, pointsPerLine: 3, source };
  const isWide = section.widthIn >= section.heightIn;
  return { lines: isWide ? 3 : 4, pointsPerLine: isWide ? 4 : 3, source };
}
