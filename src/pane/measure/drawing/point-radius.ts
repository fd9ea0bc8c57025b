import type { DrawingPoint } from "./scaled-section.js";

const LARGEST = 9;
const SMALLEST = 2.5;

/** Smallest point in which a number is still read. */
export const NUMBERED_RADIUS = 6.5;

/**
 * How large points may be drawn so that neighbours do not touch; places that coincide do not count.
 *
 * @param textScale - How much larger than usual their numbers are
 */
export function pointRadius(places: readonly DrawingPoint[], textScale: number): number {
  let nearest = Number.POSITIVE_INFINITY;
  places.forEach((place, index) => {
    for (const other of places.slice(index + 1)) {
      const distance = Math.hypot(place.x - other.x, place.y - other.y);
      if (distance > 1e-6) nearest = Math.min(nearest, distance);
    }
  });
  return Math.max(SMALLEST, Math.min(LARGEST * textScale, nearest / 2 - 0.5));
}
