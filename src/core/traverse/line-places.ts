import type { Count, Inch } from "../units/quantity.js";
import { diameterPoints } from "./diameter-points.js";
import { type DuctSection, requireDuctSection } from "./duct-section.js";
import { offTheWall, type Place } from "./off-the-wall.js";
import { sidePoints } from "./side-points.js";
import type { TraverseRule } from "./traverse-rule.js";

/** One line of a traverse: the inside dimension that it crosses and the places on it, from the hole. */
export interface LinePlaces {
  readonly insideIn: Inch;
  readonly places: readonly Place[];
}

/** Returns the places on a diameter, or on a line across the width of a rectangular duct. */
export function linePlaces(
  section: DuctSection,
  rule: TraverseRule,
  pointsPerLine: Count,
  minimumWallDistanceIn: Inch,
): LinePlaces {
  requireDuctSection(section);
  const isRound = section.shape === "round";
  const insideIn = isRound ? section.diameterIn : section.widthIn;
  const positions = isRound ? diameterPoints(rule, pointsPerLine) : sidePoints(rule, pointsPerLine);
  return { insideIn, places: offTheWall(positions, insideIn, minimumWallDistanceIn) };
}
