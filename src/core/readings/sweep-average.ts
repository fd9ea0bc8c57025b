import { DomainError } from "../check/domain-error.js";
import { requireFiniteResult, requirePositive } from "../check/require.js";
import { requireReadings } from "../check/require-readings.js";
import type { Fpm, Second } from "../units/quantity.js";

/**
 * Returns the mean of slow timed sweeps, each weighted with the time that it took.
 *
 * V = Σ(V_i · t_i) / Σt_i
 *
 * A mean over time is a mean over the area only while the probe covers equal areas in equal times.
 *
 * @param velocitiesFpm - Mean velocity of each sweep, at least one [fpm]
 * @param timesSeconds - Time of each sweep, above 0, as many as velocities [s]
 * @returns Mean velocity [fpm]
 * @throws {DomainError} When there is no sweep, the lists differ in length, or a number is out of its range
 * @source Derived: time mean of a piecewise constant reading; sweeping itself is common practice
 * @example
 * sweepAverage([400, 460], [20, 40]) // => 440
 */
export function sweepAverage(velocitiesFpm: readonly Fpm[], timesSeconds: readonly Second[]): Fpm {
  requireReadings("velocitiesFpm", velocitiesFpm);
  if (timesSeconds.length !== velocitiesFpm.length) {
    throw new DomainError("timesSeconds", `as many as velocitiesFpm, ${velocitiesFpm.length}`, timesSeconds.length);
  }
  let weightedSum = 0;
  let totalSeconds = 0;
  velocitiesFpm.forEach((velocityFpm, index) => {
    const seconds = timesSeconds[index] ?? Number.NaN;
    requirePositive(`timesSeconds, sweep ${index + 1},`, seconds);
    weightedSum += velocityFpm * seconds;
    totalSeconds += seconds;
  });
  return requireFiniteResult("the average of the sweeps", weightedSum / totalSeconds);
}
