import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Horsepower, LbFt3, RevolutionsPerMinute } from "../units/quantity.js";

/**
 * Returns the shaft power of a fan at another speed and air density.
 *
 * P2 = P1 · (N2 / N1)³ · ρ2 / ρ1
 *
 * It holds for the same fan on the same, unchanged system, and for the shaft: the motor, the drive and a speed
 * controller take more. Ten percent more speed takes 33 percent more power. `fanMotorCaution` compares the answer with
 * the motor; the measured motor current has the last word.
 *
 * @param powerHp - Shaft power at the present speed, 0 or more [hp]
 * @param speedRpm - Present speed, above 0 [rpm]
 * @param newSpeedRpm - Other speed, above 0 [rpm]
 * @param densityLbFt3 - Present density of the air, above 0 [lb/ft3]
 * @param newDensityLbFt3 - Other density of the air, above 0 [lb/ft3]
 * @returns Shaft power at the other speed and density [hp]
 * @throws {DomainError} When the power is negative, or a speed or a density is not positive
 * @source Fan laws, as used in a university homework and a textbook problem with printed answers (read)
 * @example
 * fanPowerAtSpeed(6, 2000, 1500, 0.075, 0.075) // => 2.53125
 */
export function fanPowerAtSpeed(
  powerHp: Horsepower,
  speedRpm: RevolutionsPerMinute,
  newSpeedRpm: RevolutionsPerMinute,
  densityLbFt3: LbFt3,
  newDensityLbFt3: LbFt3,
): Horsepower {
  requireAtLeast("powerHp", powerHp, 0);
  requirePositive("speedRpm", speedRpm);
  requirePositive("newSpeedRpm", newSpeedRpm);
  requirePositive("densityLbFt3", densityLbFt3);
  requirePositive("newDensityLbFt3", newDensityLbFt3);
  const speedRatio = newSpeedRpm / speedRpm;
  return requireFiniteResult("fanPowerAtSpeed", powerHp * speedRatio ** 3 * (newDensityLbFt3 / densityLbFt3));
}
