import { requireAtLeast } from "../check/require.js";
import type { Cfm } from "../units/quantity.js";

/** What a room needs in each season, and which of the two sets its design airflow. */
export interface GoverningAirflow {
  readonly heatingFlowCfm: Cfm;
  readonly coolingFlowCfm: Cfm;
  readonly designFlowCfm: Cfm;
  readonly governedBy: "heating" | "cooling" | "both";
}

/**
 * Returns the larger of a room's heating and cooling airflow, with both of them and the season that governs.
 *
 * Q = max(Q_heating, Q_cooling)
 *
 * The rooms' design airflows add up to more than the system moves when the seasons govern in different rooms:
 * seasonal dampers or a compromise are then the designer's decision.
 *
 * @param heatingFlowCfm - Airflow that the heating load asks for, 0 or more [cfm]
 * @param coolingFlowCfm - Airflow that the cooling load asks for, 0 or more [cfm]
 * @returns Heating, cooling and design airflow [cfm] and the season that governs
 * @throws {DomainError} When an airflow is negative or not finite
 * @source Common practice, no source
 * @example
 * governingAirflow(180, 200).designFlowCfm // => 200
 */
export function governingAirflow(heatingFlowCfm: Cfm, coolingFlowCfm: Cfm): GoverningAirflow {
  requireAtLeast("heatingFlowCfm", heatingFlowCfm, 0);
  requireAtLeast("coolingFlowCfm", coolingFlowCfm, 0);
  const designFlowCfm = Math.max(heatingFlowCfm, coolingFlowCfm);
  const governedBy =
    heatingFlowCfm === coolingFlowCfm ? "both" : designFlowCfm === heatingFlowCfm ? "heating" : "cooling";
  return { heatingFlowCfm, coolingFlowCfm, designFlowCfm, governedBy };
}
