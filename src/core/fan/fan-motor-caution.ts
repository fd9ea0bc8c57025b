import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Horsepower, Percent } from "../units/quantity.js";

/** How much of its rated power a motor would give, and what to watch. */
export interface FanMotorCaution {
  readonly loadPercent: Percent;
  readonly exceedsRating: boolean;
  readonly caution: string;
}

const ALWAYS =
  "Measure the motor current after the change and compare it with the nameplate. Lock the power out before hands go " +
  "near belts, pulleys or the wheel; leave electrical work to qualified people.";

/**
 * Returns the part of a motor's rated power that a fan would take, with a caution in words.
 *
 * L = 100 · P / P_rated
 *
 * @param powerHp - Shaft power that the fan would take, 0 or more [hp]
 * @param ratedPowerHp - Rated power of the motor, above 0 [hp]
 * @returns Load of the motor [%], whether it exceeds the rating, and the caution
 * @throws {DomainError} When the power is negative or the rated power is not positive
 * @source Common practice, no source
 * @example
 * fanMotorCaution(7.5, 5).loadPercent // => 150
 */
export function fanMotorCaution(powerHp: Horsepower, ratedPowerHp: Horsepower): FanMotorCaution {
  requireAtLeast("powerHp", powerHp, 0);
  requirePositive("ratedPowerHp", ratedPowerHp);
  const loadPercent = requireFiniteResult("fanMotorCaution", (100 * powerHp) / ratedPowerHp);
  const exceedsRating = powerHp > ratedPowerHp;
  const verdict = exceedsRating
    ? "The fan would take more than the motor's rated power: do not run it at this speed."
    : "The fan would stay within the motor's rated power.";
  return { loadPercent, exceedsRating, caution: `${verdict} ${ALWAYS}` };
}
