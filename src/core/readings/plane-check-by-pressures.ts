import { requireReadings } from "../check/require-readings.js";
import type { InWg } from "../units/quantity.js";
import { type PlaneCheck, planeCheck } from "./plane-check.js";

/**
 * Returns whether velocity pressures were read in a plane fit for a traverse, with the counts and the reasons.
 *
 * suitable: more than 75 % of the readings above 1/10 of the largest, and none negative
 *
 * @param pressuresInWg - Velocity pressures of the traverse, at least one [inWG]
 * @returns Verdict, faults and counts
 * @throws {DomainError} When there is no reading or one is not finite
 * @source "Balancing of a Water and Air System", training document, p. 16
 * @example
 * planeCheckByPressures([0.1, 0.05, 0.02, 0.01]) // => { suitable: false, aboveLimitCount: 3, limit: 0.01 }
 */
export function planeCheckByPressures(pressuresInWg: readonly InWg[]): PlaneCheck {
  requireReadings("pressuresInWg", pressuresInWg);
  return planeCheck(pressuresInWg, 0.1);
}
