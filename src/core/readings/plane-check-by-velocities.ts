import { requireReadings } from "../check/require-readings.js";
import type { Fpm } from "../units/quantity.js";
import { type PlaneCheck, planeCheck } from "./plane-check.js";

/**
 * Returns whether velocities were read in a plane fit for a traverse, with the counts and the reasons.
 *
 * suitable: more than 75 % of the readings above √(1/10), that is 0.316, of the largest, and none negative
 *
 * The rule is printed for velocity pressures, which go with the square of the velocity: hence the root.
 *
 * @param velocitiesFpm - Velocities of the traverse, at least one [fpm]
 * @returns Verdict, faults and counts
 * @throws {DomainError} When there is no reading or one is not finite
 * @source "Balancing of a Water and Air System", training document, p. 16; the root is derived
 * @example
 * planeCheckByVelocities([1000, 800, 400, 330, 300]) // => { suitable: true, aboveLimitCount: 4, limit: 316.2 }
 */
export function planeCheckByVelocities(velocitiesFpm: readonly Fpm[]): PlaneCheck {
  requireReadings("velocitiesFpm", velocitiesFpm);
  return planeCheck(velocitiesFpm, Math.sqrt(0.1));
}
