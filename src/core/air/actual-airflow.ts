import { STANDARD_AIR } from "../../../shared/tables/standard-air.js";
import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, LbFt3 } from "../units/quantity.js";

/**
 * Returns the actual airflow that has the same mass as an airflow of standard air.
 *
 * Q = Q_standard · 0.075 / ρ
 *
 * @param standardFlowCfm - Airflow referred to standard air [cfm]
 * @param densityLbFt3 - Density of the air on site, above 0 [lb/ft3]
 * @returns Actual airflow [cfm]
 * @throws {DomainError} When the airflow is not finite or the density is not positive
 * @source Derived: equal mass flow; standard air of 0.075 lb/ft3 is common practice
 * @example
 * actualAirflow(822, 0.06166) // => 999.8
 */
export function actualAirflow(standardFlowCfm: Cfm, densityLbFt3: LbFt3): Cfm {
  requireFinite("standardFlowCfm", standardFlowCfm);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("airflow", standardFlowCfm * (STANDARD_AIR.densityLbFt3 / densityLbFt3));
}
