import { requireAtLeast, requireBetween, requireFinite, requirePositive } from "../check/require.js";
import type { Airflow, Percent } from "../units/quantity.js";
import { isAboveDesign, isBelowDesign } from "./design-limits.js";

export type DesignVerdict = "low" | "within" | "high";

/**
 * Returns whether a measured airflow lies within the band around its design airflow.
 *
 * within: Q_design · (1 − minus / 100) ≤ Q ≤ Q_design · (1 + plus / 100)
 *
 * Both limits belong to the band and nothing is rounded before the comparison. A limit that is met exactly on paper
 * counts as met: a part of 1e-12, a thousand times what binary arithmetic loses, is let pass.
 *
 * @param measuredFlow - Measured airflow, negative where the air runs the wrong way [cfm or L/s]
 * @param designFlow - Design airflow, above 0 [cfm or L/s]
 * @param minusPercent - How far below design is allowed, 0 to 100 [%]
 * @param plusPercent - How far above design is allowed, 0 or more [%]
 * @returns "low", "within" or "high"
 * @throws {DomainError} When the measured airflow is not finite, the design not positive or a limit out of its range
 * @source County public-works specification §15990, "Balance requirements": outlets −5 % / +10 %, outside air −0 % / +10 %
 * @example
 * designVerdict(142.5, 150, 5, 10) // => "within"
 * designVerdict(142.4, 150, 5, 10) // => "low"
 */
export function designVerdict(
  measuredFlow: Airflow,
  designFlow: Airflow,
  minusPercent: Percent,
  plusPercent: Percent,
): DesignVerdict {
  requireFinite("measuredFlow", measuredFlow);
  requirePositive("designFlow", designFlow);
  requireBetween("minusPercent", minusPercent, 0, 100);
  requireAtLeast("plusPercent", plusPercent, 0);
  if (isBelowDesign(measuredFlow, designFlow, minusPercent)) return "low";
  return isAboveDesign(measuredFlow, designFlow, plusPercent) ? "high" : "within";
}
