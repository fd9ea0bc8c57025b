import { requireBetween, requireWhole } from "../check/require.js";
import { flatOval } from "../openings/flat-oval.js";
import type { Count, Inch } from "../units/quantity.js";
import { MOST_POINTS_PER_LINE } from "./point-limits.js";

/** An upright strip of a flat oval, in inches from the outermost place of the left end along the major axis. */
export interface FlatOvalStrip {
  readonly leftIn: Inch;
  readonly rightIn: Inch;
  /** Where half of the area of the strip lies on either side. */
  readonly middleIn: Inch;
  /** How high the duct is at the middle. */
  readonly heightIn: Inch;
}

/** Halvings that leave no digit open. */
const HALVINGS = 80;

/**
 * Divides a flat oval duct into upright strips of equal area.
 *
 * The area left of x ≤ b/2 is r² · acos((r − x) / r) − (r − x) · √(x · (2r − x)), r = b/2; beyond, b more for each inch
 *
 * @param majorIn - Inside width from end to end, at least the minor axis [in]
 * @param minorIn - Inside height between the flat sides, above 0 [in]
 * @param lines - Strips, one for each line of a traverse, 1 to 200
 * @returns The strips from the left end, with the place and height of the middle of each
 * @throws {DomainError} When the axes make no flat oval, or the number is out of range
 * @source Plane geometry: circular segments and a rectangle
 * @example
 * flatOvalStrips(24, 12, 4).map(({ middleIn }) => middleIn) // => [3.923, 9.322, 14.678, 20.077]
 */
export function flatOvalStrips(majorIn: Inch, minorIn: Inch, lines: Count): readonly FlatOvalStrip[] {
  const { areaIn2 } = flatOval(majorIn, minorIn);
  requireWhole("lines", lines, 1);
  requireBetween("lines", lines, 1, MOST_POINTS_PER_LINE);
  const radiusIn = minorIn / 2;
  const areaLeftOf = (xIn: Inch): number => {
    if (xIn > majorIn / 2) return areaIn2 - areaLeftOf(majorIn - xIn);
    const inEnd = Math.min(xIn, radiusIn);
    const fromCenter = radiusIn - inEnd;
    const segment = radiusIn ** 2 * Math.acos(fromCenter / radiusIn) - fromCenter * halfChord(radiusIn, fromCenter);
    return segment + minorIn * (xIn - inEnd);
  };
  const placeOf = (areaRatio: number): Inch => {
    let [low, high] = [0, majorIn];
    for (let step = 0; step < HALVINGS; step += 1) {
      const middle = (low + high) / 2;
      if (areaLeftOf(middle) < areaRatio * areaIn2) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return Array.from({ length: lines }, (_, index) => {
    const middleIn = placeOf((index + 0.5) / lines);
    const fromEnd = Math.min(middleIn, majorIn - middleIn);
    return {
      leftIn: index === 0 ? 0 : placeOf(index / lines),
      rightIn: index + 1 === lines ? majorIn : placeOf((index + 1) / lines),
      middleIn,
      heightIn: fromEnd >= radiusIn ? minorIn : 2 * halfChord(radiusIn, radiusIn - fromEnd),
    };
  });
}

function halfChord(radiusIn: Inch, fromCenterIn: Inch): Inch {
  return Math.sqrt(Math.max(0, radiusIn ** 2 - fromCenterIn ** 2));
}
