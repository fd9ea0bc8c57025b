import { requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, Percent } from "../units/quantity.js";
import { leakageAirflow } from "./leakage-airflow.js";

/**
 * Returns the air lost between a fan and its outlets as a percentage of the fan's airflow.
 *
 * L = 100 · (Q_fan - ΣQ_outlet) / Q_fan
 *
 * @param fanFlowCfm - Airflow at the fan, above 0 [cfm]
 * @param outletFlowsCfm - Airflow at each outlet, or each inlet of a return; negative where it runs backwards [cfm]
 * @returns Leakage, below 0 where the outlets add up to more than the fan moves [%]
 * @throws {DomainError} When there is no outlet, the fan's airflow is not positive, or an airflow is not finite
 * @source Conservation of mass at one density
 * @example
 * leakagePercent(1200, [400, 380, 330]) // => 7.5
 */
export function leakagePercent(fanFlowCfm: Cfm, outletFlowsCfm: readonly Cfm[]): Percent {
  requirePositive("fanFlowCfm", fanFlowCfm);
  return requireFiniteResult("leakagePercent", (100 * leakageAirflow(fanFlowCfm, outletFlowsCfm)) / fanFlowCfm);
}
