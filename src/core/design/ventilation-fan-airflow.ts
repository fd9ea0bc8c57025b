import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireBetween, requirePositive } from "../check/require.js";
import type { Cfm, Ratio } from "../units/quantity.js";

/** Whether a ventilation system supplies and exhausts alike, or only one of the two. */
export type VentilationKind = "balanced" | "unbalanced";

/**
 * Returns the airflow that the ventilation fan has to bring once infiltration is credited.
 *
 * Q_fan = max(0, Q_total - φ · Q_infiltration · exterior), φ = 1 when balanced, else Q_infiltration / Q_total
 *
 * An unbalanced fan replaces part of the infiltration instead of adding to it: hence the smaller credit.
 *
 * @param totalFlowCfm - Whole-dwelling rate, above 0 [cfm]
 * @param infiltrationFlowCfm - Effective annual infiltration, 0 or more [cfm]
 * @param exteriorRatio - Part of the dwelling's envelope that meets outdoor air, 0 to 1; 1 for a detached house [ratio]
 * @param kind - "balanced" or "unbalanced"
 * @returns Airflow of the fan, never below 0 [cfm]
 * @throws {DomainError} When an airflow or the ratio is out of range, or the kind is unknown
 * @source ASHRAE 62.2-2019, as coded with its citation in a national laboratory's open energy code (read)
 * @example
 * ventilationFanAirflow(84, 42, 1, "unbalanced") // => 63
 */
export function ventilationFanAirflow(
  totalFlowCfm: Cfm,
  infiltrationFlowCfm: Cfm,
  exteriorRatio: Ratio,
  kind: VentilationKind,
): Cfm {
  requirePositive("totalFlowCfm", totalFlowCfm);
  requireAtLeast("infiltrationFlowCfm", infiltrationFlowCfm, 0);
  requireBetween("exteriorRatio", exteriorRatio, 0, 1);
  if (kind !== "balanced" && kind !== "unbalanced") throw new DomainError("kind", "balanced or unbalanced", kind);
  const additivity = kind === "balanced" ? 1 : infiltrationFlowCfm / totalFlowCfm;
  return Math.max(0, totalFlowCfm - additivity * infiltrationFlowCfm * exteriorRatio);
}
