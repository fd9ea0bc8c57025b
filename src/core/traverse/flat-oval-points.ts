import { requireAtLeast, requireBetween, requireWhole } from "../check/require.js";
import { flatOval } from "../openings/flat-oval.js";
import type { Count, Inch } from "../units/quantity.js";
import { insertionDepth } from "./insertion-depth.js";

/** One line of a traverse of a flat oval duct: a hole in the long side, and how deep each point of it is. */
export interface FlatOvalLine {
  /** From the outermost place of the left end, along the major axis, to the hole. */
  readonly holeIn: Inch;
  /** From the outside of the wall at that hole, ascending. */
  readonly depthsIn: readonly Inch[];
}

/** More are never wanted. */
const MOST = 200;

/** Halvings that leave no digit open. */
const HALVINGS = 80;

/**
 * Returns the points of a traverse in a flat oval duct: each stands for the same area.
 *
 * Upright strips of equal area, a line in the middle of the area of each; on it m points at (k − ½) / m of its height
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @param lineCount - Holes along the long side, 1 to 200 [count]
 * @param pointCount - Points on each line, 1 to 200 [count]
 * @param wallIn - Wall, lining and nipple that the probe passes before the air, 0 or more [in]
 * @returns Each line from the left end, with the depths of its points
 * @throws {DomainError} When the axes make no flat oval, or a count or the wall is out of range
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.4.1 (points in equal areas), applied to the flat oval: derived
 * @example
 * flatOvalPoints(24, 12, 4, 3, 0).map(({ holeIn }) => holeIn) // => [3.923, 9.322, 14.678, 20.077]
 */
export function flatOvalPoints(
  majorIn: Inch,
  minorIn: Inch,
  lineCount: Count,
  pointCount: Count,
  wallIn: Inch,
): readonly FlatOvalLine[] {
  const { areaIn2 } = flatOval(majorIn, minorIn);
  for (const [name, count] of Object.entries({ lineCount, pointCount })) {
    requireWhole(name, count, 1);
    requireBetween(name, count, 1, MOST);
  }
  requireAtLeast("wallIn", wallIn, 0);
  const radiusIn = minorIn / 2;
  const areaLeftOf = (xIn: Inch): number => {
    if (xIn > majorIn / 2) return areaIn2 - areaLeftOf(majorIn - xIn);
    const inEnd = Math.min(xIn, radiusIn);
    const fromCenter = radiusIn - inEnd;
    const segment = radiusIn ** 2 * Math.acos(fromCenter / radiusIn) - fromCenter * halfChord(radiusIn, fromCenter);
    return segment + minorIn * (xIn - inEnd);
  };
  return Array.from({ length: lineCount }, (_, index) => {
    const wanted = ((index + 0.5) / lineCount) * areaIn2;
    let [low, high] = [0, majorIn];
    for (let step = 0; step < HALVINGS; step += 1) {
      const middle = (low + high) / 2;
      if (areaLeftOf(middle) < wanted) low = middle;
      else high = middle;
    }
    const holeIn = (low + high) / 2;
    const fromEnd = Math.min(holeIn, majorIn - holeIn);
    const heightIn = fromEnd >= radiusIn ? minorIn : 2 * halfChord(radiusIn, radiusIn - fromEnd);
    const depthsIn = Array.from({ length: pointCount }, (_point, at) =>
      insertionDepth((at + 0.5) / pointCount, heightIn, wallIn),
    );
    return { holeIn, depthsIn };
  });
}

function halfChord(radiusIn: Inch, fromCenterIn: Inch): Inch {
  return Math.sqrt(Math.max(0, radiusIn ** 2 - fromCenterIn ** 2));
}
