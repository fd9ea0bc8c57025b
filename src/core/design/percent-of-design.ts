import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Airflow, Percent } from "../units/quantity.js";

/**
 * Returns a measured airflow in percent of the design airflow.
 *
 * P = 100 · Q / Q_design
 *
 * Of several outlets take both sums first: the mean of their percents lets a small outlet weigh as much as a big one.
 *
 * @param measuredFlow - Measured airflow, negative where the air runs the wrong way [cfm or L/s]
 * @param designFlow - Design airflow, above 0 [cfm or L/s]
 * @returns Percent of design, not rounded [%]
 * @throws {DomainError} When the measured airflow is not finite or the design is not positive
 * @source Common practice in balance specifications: percentage of design airflow
 * @example
 * percentOfDesign(142.5, 150) // => 95
 */
export function percentOfDesign(measuredFlow: Airflow, designFlow: Airflow): Percent {
  requireFinite("measuredFlow", measuredFlow);
  requirePositive("designFlow", designFlow);
  return requireFiniteResult("percent of design", (measuredFlow / designFlow) * 100);
}
