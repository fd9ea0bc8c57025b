import { requireFinite, requireFiniteResult } from "../check/require.js";
import type { Cfm } from "../units/quantity.js";
import { type AirflowDoubt, airflowBudget } from "./airflow-budget.js";

/**
 * Returns the ± of one airflow (95 %).
 *
 * U = |Q| · k · √((u(A) / A)² + (u(F) / F)² + (u(V) / V)²)
 *
 * @param airflowCfm - The airflow, of either sign [cfm]
 * @param doubt - What is known about instrument, factor, area, repeat and points; "assumed" takes the default
 * @returns Expanded uncertainty, in the unit of the airflow [cfm]
 * @throws {DomainError} When the airflow is not finite or a stated part is negative
 * @source JCGM 100:2008 (GUM), 5.1.6 and 6.2
 * @example
 * airflowUncertainty(150, {
 *   instrumentPercent: 8,
 *   factorPercent: "assumed",
 *   areaPercent: 2,
 *   repeatPercent: 2,
 *   repeatDegreesOfFreedom: 9,
 *   points: null,
 *   pitot: null,
 * }) // => 38.111
 */
export function airflowUncertainty(airflowCfm: Cfm, doubt: AirflowDoubt): Cfm {
  requireFinite("airflowCfm", airflowCfm);
  const { expandedPercent } = airflowBudget(doubt);
  return requireFiniteResult("airflowUncertainty", (Math.abs(airflowCfm) * expandedPercent) / 100);
}
