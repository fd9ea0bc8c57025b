import { STANDARD_AIR } from "../../../shared/tables/standard-air.js";
import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, LbFt3 } from "../units/quantity.js";

/**
 * Returns the airflow of standard air that has the same mass as an actual airflow.
 *
 * Q_standard = Q · ρ / 0.075
 *
 * @param flowCfm - Actual airflow [cfm]
 * @param densityLbFt3 - Density of that air, above 0 [lb/ft3]
 * @returns Airflow referred to standard air, the "scfm" of the trade [cfm]
 * @throws {DomainError} When the airflow is not finite or the density is not positive
 * @source Derived: equal mass flow; standard air of 0.075 lb/ft3 is common practice
 * @example
 * standardAirflow(1000, 0.06166) // => 822
 */
export function standardAirflow(flowCfm: Cfm, densityLbFt3: LbFt3): Cfm {
  requireFinite("flowCfm", flowCfm);
  requirePositive("densityLbFt3", densityLbFt3);
  return requireFiniteResult("airflow", flowCfm * (densityLbFt3 / STANDARD_AIR.densityLbFt3));
}
