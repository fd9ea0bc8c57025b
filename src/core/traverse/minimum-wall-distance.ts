import { DomainError } from "../check/domain-error.js";
import type { Inch } from "../units/quantity.js";
import type { AnyDuctSection } from "./duct-section.js";
import { exceeds } from "./exceeds.js";
import { hydraulicDiameter } from "./hydraulic-diameter.js";

/** Largest duct for which the smaller distance holds. */
const SMALL_DUCT_IN: Inch = 24;

/** Closest that a point of equal area may come to the wall, in ducts up to that size and above. */
const SMALL_DUCT_DISTANCE_IN: Inch = 0.5;
const LARGE_DUCT_DISTANCE_IN: Inch = 1;

/** Below this no place is far enough from both walls. */
const SMALLEST_SIDE_IN: Inch = 2 * SMALL_DUCT_DISTANCE_IN;

/** The least distance of a district's method, whatever the size of the duct: ST-18, §3.4. */
export const STRICT_WALL_DISTANCE_IN: Inch = LARGE_DUCT_DISTANCE_IN;

/**
 * Returns how close to the inside wall a traverse point of equal area may stand.
 *
 * Up to 24 in: 0.5 in; above: 1 in
 *
 * Published for round ducts; another duct is taken by its hydraulic diameter. The log rules place their outermost
 * points near the wall on purpose: moving them off it would falsify the mean, so this distance is not theirs.
 *
 * @param section - Inside dimensions, each 1 in or more
 * @returns Least distance from the inside wall [in]
 * @throws {DomainError} When a dimension is below 1 in, where no place is far enough from both walls
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.2 and 11.3.3
 * @example
 * minimumWallDistance({ shape: "round", diameterIn: 20 }) // => 0.5
 */
export function minimumWallDistance(section: AnyDuctSection): Inch {
  const diameterIn = hydraulicDiameter(section);
  for (const [parameter, sideIn] of Object.entries(sidesOf(section))) {
    if (exceeds(SMALLEST_SIDE_IN, sideIn)) {
      throw new DomainError(parameter, `${SMALLEST_SIDE_IN} in (25.4 mm) or more to keep points off the walls`, sideIn);
    }
  }
  return exceeds(diameterIn, SMALL_DUCT_IN) ? LARGE_DUCT_DISTANCE_IN : SMALL_DUCT_DISTANCE_IN;
}

function sidesOf(section: AnyDuctSection): Readonly<Record<string, Inch>> {
  if (section.shape === "round") return { diameterIn: section.diameterIn };
  if (section.shape === "flat oval") return { minorIn: section.minorIn };
  return { widthIn: section.widthIn, heightIn: section.heightIn };
}
