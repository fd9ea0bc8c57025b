import { requireAtLeast, requireFinite, requireFiniteResult, requireSome } from "../check/require.js";
import type { Cfm } from "../units/quantity.js";

/**
 * Returns the air that is lost, or gained, between a fan and the outlets or inlets on its duct.
 *
 * Q = Q_fan - ΣQ_outlet
 *
 * It is a small difference of two large measured sums: unless it is well above their uncertainties it says little,
 * and below 0 it says that the two measurements disagree. It does not replace a duct pressure test.
 *
 * @param fanFlowCfm - Airflow at the fan, 0 or more [cfm]
 * @param outletFlowsCfm - Airflow at each outlet, or each inlet of a return; negative where it runs backwards [cfm]
 * @returns Leakage between fan and outlets [cfm]
 * @throws {DomainError} When there is no outlet, the fan's airflow is negative, or an airflow is not finite
 * @source Conservation of mass at one density
 * @example
 * leakageAirflow(1200, [400, 380, 330]) // => 90
 */
export function leakageAirflow(fanFlowCfm: Cfm, outletFlowsCfm: readonly Cfm[]): Cfm {
  requireAtLeast("fanFlowCfm", fanFlowCfm, 0);
  requireSome("outletFlowsCfm", outletFlowsCfm);
  let outletSumCfm = 0;
  for (const flowCfm of outletFlowsCfm) {
    requireFinite("outletFlowsCfm", flowCfm);
    outletSumCfm += flowCfm;
  }
  return requireFiniteResult("leakageAirflow", fanFlowCfm - outletSumCfm);
}
