import { DomainError } from "../check/domain-error.js";
import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { BtuPerHour, Cfm, Fahrenheit, LbFt3 } from "../units/quantity.js";
import { sensibleHeatFactor } from "./sensible-heat-factor.js";

/**
 * Returns the airflow through a heater from its output and the temperature rise across it.
 *
 * Q = output / (60 · ρ · 0.24 · (T_leaving - T_entering))
 *
 * It takes the output, not the input on the nameplate, and steady running. Keep the leaving sensor out of the line of
 * sight of the heat exchanger, and average several points: air leaves a heater in layers.
 *
 * @param outputBtuPerHour - Heat that reaches the air, above 0 [Btu/h]
 * @param enteringF - Temperature of the air before the heater [degF]
 * @param leavingF - Temperature of the air after it, above the entering one [degF]
 * @param densityLbFt3 - Density of the air at the place whose airflow is wanted, above 0 [lb/ft3]
 * @returns Airflow at that density [cfm]
 * @throws {DomainError} When the output or the density is not positive, or the air is not warmed
 * @source Derived from the sensible heat equation; sensor placement is common practice, no source
 * @example
 * airflowFromTemperatureRise(64800, 70, 120, 0.075) // => 1200
 */
export function airflowFromTemperatureRise(
  outputBtuPerHour: BtuPerHour,
  enteringF: Fahrenheit,
  leavingF: Fahrenheit,
  densityLbFt3: LbFt3,
): Cfm {
  requirePositive("outputBtuPerHour", outputBtuPerHour);
  requireFinite("enteringF", enteringF);
  requireFinite("leavingF", leavingF);
  if (!(leavingF > enteringF)) throw new DomainError("leavingF", "above the entering temperature", leavingF);
  return requireFiniteResult(
    "airflowFromTemperatureRise",
    outputBtuPerHour / (sensibleHeatFactor(densityLbFt3) * (leavingF - enteringF)),
  );
}
