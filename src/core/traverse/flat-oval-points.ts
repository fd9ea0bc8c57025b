import { requireAtLeast } from "../check/require.js";
import type { Count, Inch } from "../units/quantity.js";
import { traversePlan } from "./traverse-plan.js";

/** One line of a traverse of a flat oval duct: a hole in the long side, and how deep each point of it is. */
export interface FlatOvalLine {
  /** From the outermost place of the left end, along the major axis, to the hole. */
  readonly holeIn: Inch;
  /** From the outside of the wall at that hole, ascending. */
  readonly depthsIn: readonly Inch[];
}

/**
 * Returns the points of a traverse in a flat oval duct: each stands for the same area.
 *
 * Upright strips of equal area, a line in the middle of the area of each; on it m points at (k − ½) / m of its height,
 * none nearer to the wall than the least distance
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @param lines - Holes along the long side, 1 to 200
 * @param pointsPerLine - Points on each line, 1 to 200
 * @param wallIn - Wall, lining and nipple that the probe passes before the air, 0 or more [in]
 * @param minimumWallDistanceIn - Least distance of a point from the inside wall along its line, 0 or more [in]
 * @returns Each line from the left end, with the depths of its points
 * @throws {DomainError} When the axes make no flat oval, or a count or a length is out of range
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.4.1 (points in equal areas), applied to the flat oval: derived
 * @example
 * flatOvalPoints(24, 12, 4, 3, 0, 0.5).map(({ holeIn }) => holeIn) // => [3.923, 9.322, 14.678, 20.077]
 */
export function flatOvalPoints(
  majorIn: Inch,
  minorIn: Inch,
  lines: Count,
  pointsPerLine: Count,
  wallIn: Inch,
  minimumWallDistanceIn: Inch,
): readonly FlatOvalLine[] {
  requireAtLeast("minimumWallDistanceIn", minimumWallDistanceIn, 0);
  const section = { shape: "flat oval", majorIn, minorIn } as const;
  const plan = traversePlan(section, "equal area", lines, pointsPerLine, wallIn, minimumWallDistanceIn);
  return plan.lines.map(({ line, hole }) => ({
    holeIn: hole.xIn,
    depthsIn: plan.points.filter((point) => point.line === line).map(({ depthIn }) => depthIn),
  }));
}
