import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import { MINUTES_PER_HOUR } from "../units/minutes-per-hour.js";
import type { Cfm, CubicFoot, PerHour } from "../units/quantity.js";

/**
 * Returns the airflow that changes the air of a room a wanted number of times an hour.
 *
 * Q = N · volume / 60
 *
 * @param changesPerHour - Wanted air changes, 0 or more [1/h]
 * @param volumeFt3 - Volume of the room, above 0 [ft3]
 * @returns Airflow [cfm]
 * @throws {DomainError} When the air changes are negative or the volume is not positive
 * @source Definition of the air change rate
 * @example
 * airflowForAirChanges(6, 3360) // => 336
 */
export function airflowForAirChanges(changesPerHour: PerHour, volumeFt3: CubicFoot): Cfm {
  requireAtLeast("changesPerHour", changesPerHour, 0);
  requirePositive("volumeFt3", volumeFt3);
  return requireFiniteResult("airflowForAirChanges", (changesPerHour * volumeFt3) / MINUTES_PER_HOUR);
}
