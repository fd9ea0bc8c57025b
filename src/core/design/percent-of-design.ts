import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, Percent } from "../units/quantity.js";

/**
 * Returns a measured airflow in percent of the design airflow.
 *
 * P = 100 · Q / Q_design
 *
 * Of several outlets take both sums first: the mean of their percents lets a small outlet weigh as much as a big one.
 *
 * @param measuredCfm - Measured airflow, negative where the air runs the wrong way [cfm]
 * @param designCfm - Design airflow, above 0 [cfm]
 * @returns Percent of design, not rounded [%]
 * @throws {DomainError} When the measured airflow is not finite or the design is not positive
 * @source Common practice in balance specifications: percentage of design airflow
 * @example
 * percentOfDesign(142.5, 150) // => 95
 */
export function percentOfDesign(measuredCfm: Cfm, designCfm: Cfm): Percent {
  requireFinite("measuredCfm", measuredCfm);
  requirePositive("designCfm", designCfm);
  return requireFiniteResult("percent of design", (measuredCfm / designCfm) * 100);
}
