import { requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, RevolutionsPerMinute } from "../units/quantity.js";

/**
 * Returns the fan speed that would bring a wanted airflow on an unchanged system.
 *
 * N2 = N1 · Q2 / Q1
 *
 * Ten percent more air asks for 33 percent more shaft power: before speeding a fan up, work out the power and compare
 * it with the motor, and compare the speed with the highest one that the maker allows for the wheel.
 *
 * @param speedRpm - Present speed, above 0 [rpm]
 * @param flowCfm - Airflow at the present speed, above 0 [cfm]
 * @param wantedFlowCfm - Wanted airflow, above 0 [cfm]
 * @returns Speed to set and measure again [rpm]
 * @throws {DomainError} When the speed or an airflow is not positive
 * @source Fan laws, as used in a university homework with printed answers (read)
 * @example
 * fanSpeedForAirflow(2000, 6000, 4500) // => 1500
 */
export function fanSpeedForAirflow(
  speedRpm: RevolutionsPerMinute,
  flowCfm: Cfm,
  wantedFlowCfm: Cfm,
): RevolutionsPerMinute {
  requirePositive("speedRpm", speedRpm);
  requirePositive("flowCfm", flowCfm);
  requirePositive("wantedFlowCfm", wantedFlowCfm);
  return requireFiniteResult("fanSpeedForAirflow", speedRpm * (wantedFlowCfm / flowCfm));
}
