import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, Ratio } from "../units/quantity.js";

/**
 * Returns the part of its design airflow that an outlet, a branch or a system gets.
 *
 * R = Q / D
 *
 * @param measuredCfm - Measured airflow; negative where the air runs backwards [cfm]
 * @param designCfm - Design airflow, above 0 [cfm]
 * @returns Share of the design airflow, 1 where it is met [ratio]
 * @throws {DomainError} When the measured airflow is not finite or the design airflow is not positive
 * @source Proportional (ratio) balancing, common practice, no source
 * @example
 * balanceRatio(96, 120) // => 0.8
 */
export function balanceRatio(measuredCfm: Cfm, designCfm: Cfm): Ratio {
  requireFinite("measuredCfm", measuredCfm);
  requirePositive("designCfm", designCfm);
  return requireFiniteResult("balanceRatio", measuredCfm / designCfm);
}
