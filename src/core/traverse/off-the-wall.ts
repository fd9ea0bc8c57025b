import { requireBetween } from "../check/require.js";
import type { Count, Inch, Ratio } from "../units/quantity.js";

/** A position on a line after points too near to a wall were moved. */
export interface Place {
  readonly positionRatio: Ratio;
  readonly wasMoved: boolean;
  /** How many positions of the line share this place: one reading there stands for all of them. */
  readonly timesCounted: Count;
}

/**
 * Moves positions that lie too near to either wall to the least distance from it.
 *
 * Positions that meet there stay separate points with the same place, so that a mean over all of them counts the
 * reading twice (40 CFR 60 App. A-1, Method 1, §11.3.2).
 */
export function offTheWall(
  positionRatios: readonly Ratio[],
  insideIn: Inch,
  minimumWallDistanceIn: Inch,
): readonly Place[] {
  requireBetween("minimumWallDistanceIn", minimumWallDistanceIn, 0, insideIn / 2);
  const leastRatio = minimumWallDistanceIn / insideIn;
  const moved = positionRatios.map((position) => Math.min(Math.max(position, leastRatio), 1 - leastRatio));
  return moved.map((positionRatio, index) => ({
    positionRatio,
    wasMoved: positionRatio !== positionRatios[index],
    timesCounted: moved.filter((other) => other === positionRatio).length,
  }));
}
