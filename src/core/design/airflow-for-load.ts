import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import { sensibleHeatFactor } from "../heat/sensible-heat-factor.js";
import type { BtuPerHour, Cfm, FahrenheitDifference, LbFt3 } from "../units/quantity.js";

/**
 * Returns the airflow that carries a sensible load at a difference between room and supply air.
 *
 * Q = q / (60 · ρ · 0.24 · ΔT), which is q / (1.08 · ΔT) at 0.075 lb/ft3
 *
 * @param sensibleLoadBtuPerHour - Sensible load of the room, 0 or more [Btu/h]
 * @param differenceF - Supply air against room air, without sign, above 0 [degF difference]
 * @param densityLbFt3 - Density of the supply air, above 0 [lb/ft3]
 * @returns Airflow at that density [cfm]
 * @throws {DomainError} When the load is negative, or the difference or the density is not positive
 * @source Derived from the sensible heat equation, which see
 * @example
 * airflowForLoad(6000, 20, 0.075) // => 277.78
 */
export function airflowForLoad(
  sensibleLoadBtuPerHour: BtuPerHour,
  differenceF: FahrenheitDifference,
  densityLbFt3: LbFt3,
): Cfm {
  requireAtLeast("sensibleLoadBtuPerHour", sensibleLoadBtuPerHour, 0);
  requirePositive("differenceF", differenceF);
  return requireFiniteResult(
    "airflowForLoad",
    sensibleLoadBtuPerHour / (sensibleHeatFactor(densityLbFt3) * differenceF),
  );
}
