import type { Count, Inch } from "../units/quantity.js";
import type { DuctSection } from "./duct-section.js";
import { insertionDepth } from "./insertion-depth.js";
import { linePlaces } from "./line-places.js";
import type { TraverseRule } from "./traverse-rule.js";

/**
 * Returns how deep to push the probe for each point of one line of a traverse.
 *
 * depth = max(x, least / inside) · inside + wall, and the same from the far wall; points that meet keep a depth each
 *
 * @param section - Inside dimensions, above 0; the line crosses the diameter or the width
 * @param rule - "equal area", "log-linear" (round only) or "log-Tchebycheff"
 * @param pointsPerLine - Points on the line, as the rule allows
 * @param wallIn - Wall, lining and nipple that the probe passes before the air, 0 or more [in]
 * @param minimumWallDistanceIn - Least distance of a point from the inside wall, 0 to half the dimension [in]
 * @returns Depths from the outside of the wall, one a point, ascending [in]
 * @throws {DomainError} When an argument is outside its range, or the rule has no such number of points
 * @source 40 CFR 60 App. A-1, Method 1, §11.3; ISO 5802:2001, Tables 2 and 3
 * @example
 * insertionDepths({ shape: "round", diameterIn: 20 }, "equal area", 4, 1, 0.5) // => [2.34, 6, 16, 19.66]
 */
export function insertionDepths(
  section: DuctSection,
  rule: TraverseRule,
  pointsPerLine: Count,
  wallIn: Inch,
  minimumWallDistanceIn: Inch,
): readonly Inch[] {
  const { insideIn, places } = linePlaces(section, rule, pointsPerLine, minimumWallDistanceIn);
  return places.map(({ positionRatio }) => insertionDepth(positionRatio, insideIn, wallIn));
}
