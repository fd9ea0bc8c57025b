import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Airflow, Ratio } from "../units/quantity.js";

/**
 * Returns the part of its design airflow that an outlet, a branch or a system gets.
 *
 * R = Q / D
 *
 * @param measuredFlow - Measured airflow; negative where the air runs backwards [cfm or L/s]
 * @param designFlow - Design airflow, above 0 [cfm or L/s]
 * @returns Share of the design airflow, 1 where it is met [ratio]
 * @throws {DomainError} When the measured airflow is not finite or the design airflow is not positive
 * @source Proportional (ratio) balancing, common practice, no source
 * @example
 * balanceRatio(96, 120) // => 0.8
 */
export function balanceRatio(measuredFlow: Airflow, designFlow: Airflow): Ratio {
  requireFinite("measuredFlow", measuredFlow);
  requirePositive("designFlow", designFlow);
  return requireFiniteResult("balanceRatio", measuredFlow / designFlow);
}
