import { requireBetween } from "../check/require.js";
import { requireReadings } from "../check/require-readings.js";
import { exceeds } from "./exceeds.js";

/** Above this average the air swirls too much for a traverse. */
const MOST_DEGREES = 20;

/** How far the air leans from the duct's axis over a traverse. */
export interface FlowAngle {
  readonly averageDegrees: number;
  readonly isSuitable: boolean;
  readonly words: string;
}

/**
 * Returns how far the air leans from the axis of the duct on average, and whether a traverse may be made there.
 *
 * a = Σ|αᵢ| / n, suitable up to 20°
 *
 * At each point a Pitot tube is turned until its reading is null; α is how far it had to be turned from the position in
 * which still axial air gives none. Points that needed no turning count as 0.
 *
 * @param anglesDegrees - Rotation at each point, of either sign, −90 to 90, at least one [deg]
 * @returns The average of the rotations without their signs, whether it is suitable, and the same in words
 * @throws {DomainError} When there is no angle or one is beyond a right angle
 * @source 40 CFR 60 App. A-1, Method 1, §11.4.2
 * @example
 * flowAngle([10, -20, 0, 6]).averageDegrees // => 9
 */
export function flowAngle(anglesDegrees: readonly number[]): FlowAngle {
  requireReadings("angles", anglesDegrees);
  let sum = 0;
  for (const angle of anglesDegrees) {
    requireBetween("angles", angle, -90, 90);
    sum += Math.abs(angle);
  }
  const averageDegrees = sum / anglesDegrees.length;
  const isSuitable = !exceeds(averageDegrees, MOST_DEGREES);
  const average = `average angle ${(Math.round(averageDegrees * 10 + 1e-7) / 10).toFixed(1)}°`;
  const words = isSuitable
    ? `suitable: ${average}, 20° allowed`
    : `swirling: ${average}, above 20°. Find another place or straighten the flow`;
  return { averageDegrees, isSuitable, words };
}
