import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { InWg, LbFt3, RevolutionsPerMinute } from "../units/quantity.js";

/**
 * Returns the pressure of a fan at another speed and air density.
 *
 * p2 = p1 · (N2 / N1)² · ρ2 / ρ1
 *
 * It holds for the same fan on the same, unchanged system. Where a part of the system holds a pressure of its own, as
 * a controlled damper or a room under pressure does, the law fails.
 *
 * @param pressureInWg - Pressure of the fan at the present speed, 0 or more [inWG]
 * @param speedRpm - Present speed, above 0 [rpm]
 * @param newSpeedRpm - Other speed, above 0 [rpm]
 * @param densityLbFt3 - Present density of the air, above 0 [lb/ft3]
 * @param newDensityLbFt3 - Other density of the air, above 0 [lb/ft3]
 * @returns Pressure at the other speed and density [inWG]
 * @throws {DomainError} When the pressure is negative, or a speed or a density is not positive
 * @source Fan laws, as used in a university homework and a textbook problem with printed answers (read)
 * @example
 * fanPressureAtSpeed(4, 2000, 1500, 0.075, 0.075) // => 2.25
 */
export function fanPressureAtSpeed(
  pressureInWg: InWg,
  speedRpm: RevolutionsPerMinute,
  newSpeedRpm: RevolutionsPerMinute,
  densityLbFt3: LbFt3,
  newDensityLbFt3: LbFt3,
): InWg {
  requireAtLeast("pressureInWg", pressureInWg, 0);
  requirePositive("speedRpm", speedRpm);
  requirePositive("newSpeedRpm", newSpeedRpm);
  requirePositive("densityLbFt3", densityLbFt3);
  requirePositive("newDensityLbFt3", newDensityLbFt3);
  const speedRatio = newSpeedRpm / speedRpm;
  return requireFiniteResult("fanPressureAtSpeed", pressureInWg * speedRatio ** 2 * (newDensityLbFt3 / densityLbFt3));
}
