import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, RevolutionsPerMinute } from "../units/quantity.js";

/**
 * Returns the airflow of a fan at another speed.
 *
 * Q2 = Q1 · N2 / N1
 *
 * It holds for the same fan on the same, unchanged system: no damper, filter or coil may change between the two. The
 * density of the air does not matter to the volume. Stay below the highest speed that the maker allows for the wheel.
 *
 * @param flowCfm - Airflow at the present speed, 0 or more [cfm]
 * @param speedRpm - Present speed, above 0 [rpm]
 * @param newSpeedRpm - Other speed, above 0 [rpm]
 * @returns Airflow at the other speed [cfm]
 * @throws {DomainError} When the airflow is negative or a speed is not positive
 * @source Fan laws, as used in a university homework with printed answers (read)
 * @example
 * fanAirflowAtSpeed(6000, 2000, 1500) // => 4500
 */
export function fanAirflowAtSpeed(
  flowCfm: Cfm,
  speedRpm: RevolutionsPerMinute,
  newSpeedRpm: RevolutionsPerMinute,
): Cfm {
  requireAtLeast("flowCfm", flowCfm, 0);
  requirePositive("speedRpm", speedRpm);
  requirePositive("newSpeedRpm", newSpeedRpm);
  return requireFiniteResult("fanAirflowAtSpeed", flowCfm * (newSpeedRpm / speedRpm));
}
