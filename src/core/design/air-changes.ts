import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import { MINUTES_PER_HOUR } from "../units/minutes-per-hour.js";
import type { Cfm, CubicFoot, PerHour } from "../units/quantity.js";

/**
 * Returns how many times an hour an airflow replaces the air of a room.
 *
 * N = 60 · Q / volume
 *
 * @param flowCfm - Airflow into or out of the room, without sign, 0 or more [cfm]
 * @param volumeFt3 - Volume of the room, above 0 [ft3]
 * @returns Air changes per hour [1/h]
 * @throws {DomainError} When the airflow is negative or the volume is not positive
 * @source Definition of the air change rate
 * @example
 * airChanges(125, 36000) // => 0.20833
 */
export function airChanges(flowCfm: Cfm, volumeFt3: CubicFoot): PerHour {
  requireAtLeast("flowCfm", flowCfm, 0);
  requirePositive("volumeFt3", volumeFt3);
  return requireFiniteResult("airChanges", (MINUTES_PER_HOUR * flowCfm) / volumeFt3);
}
