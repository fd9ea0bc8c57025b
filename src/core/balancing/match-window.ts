import { type DesignLimits, limitRatios } from "../design/design-limits.js";
import type { Percent, Ratio } from "../units/quantity.js";

/** How far ratios may lie apart before somebody moves a damper. */
export interface MatchWindow {
  /** Highest over lowest outlet of one branch. */
  readonly outletRatio: Ratio;
  /** Highest over lowest outlet of the whole system, once every branch is matched. */
  readonly systemRatio: Ratio;
}

/** The part of the limits that is used: what is left holds what a move did otherwise than was foreseen. */
const USED = 0.8;

/** The part of that which the outlets of one branch may take where branches have to be matched as well. */
const IN_BRANCH = 0.6;

/** Readings that scatter take so many of their standard deviations off each end. */
const GUARD = 1;

/**
 * Returns how far outlets may lie apart and still fit into the limits, once the fan is set.
 *
 * ln outlet = 0.8 · (ln(high / low) − 2 · s), times 0.6 where there are branches; at least a fourth of ln(high / low)
 *
 * Only ratios count: the fan moves all outlets alike. An outlet inside the window needs no move.
 *
 * @param limits - How far from design is allowed
 * @param branchCount - How many branches the system has [count]
 * @param repeatPercent - Relative standard deviation of a reading, 0 or more [%]
 * @returns Both windows, as highest over lowest
 * @throws {DomainError} When a limit is out of range
 * @source Derived; the parts were chosen by simulation
 * @example
 * matchWindow({ minusPercent: 10, plusPercent: 10 }, 1, 0).outletRatio // => 1.1741
 */
export function matchWindow(limits: DesignLimits, branchCount: number, repeatPercent: Percent): MatchWindow {
  const { lowRatio, highRatio } = limitRatios(limits);
  const whole = Math.log(highRatio / lowRatio);
  const kept = Math.max(whole / 4, whole - (2 * GUARD * repeatPercent) / 100);
  const system = USED * kept;
  return {
    outletRatio: Math.exp(branchCount > 1 ? IN_BRANCH * system : system),
    systemRatio: Math.exp(system),
  };
}
