import type { Percent } from "../units/quantity.js";
import { type ChangeByUncertainty, changeByUncertainty } from "./change-by-uncertainty.js";
import { changePercent } from "./change-percent.js";
import { compareSweeps, type SweepComparison, type SweptResult } from "./compare-sweeps.js";

/** A result with both of its doubts, all in one unit. */
export interface ComparedResult extends SweptResult {
  /** The ± of the value (95 %), everything counted. */
  readonly expanded: number;
}

/** Both answers on a change, each naming what it rests on. */
export interface ChangeVerdict {
  readonly changePercent: Percent;
  /** Did it change? */
  readonly didChange: SweepComparison;
  /** By how much is it known? */
  readonly howMuch: ChangeByUncertainty;
  readonly words: string;
}

/**
 * Answers both questions on work done: did the result change, and by how much is that known.
 *
 * The first by `compareSweeps`, from repeats only; the second by `changeByUncertainty`, from everything
 *
 * @param before - Result before the work, above 0, with its two doubts [same unit]
 * @param after - Result after the work with its two doubts [same unit]
 * @param resolution - Smallest step of the meter's display, 0 where it is not known [same unit]
 * @returns The change in percent, the answer by repeats, the answer by full uncertainty, and both in words
 * @throws {DomainError} When a result is out of range or its doubts are negative or all 0
 * @source JCGM 100:2008 (GUM), 5.1.2; number Eₙ of ISO 13528 (from memory, unverified)
 * @example
 * changeVerdict(
 *   { value: 400, sweepCount: 3, sweepPercent: 2, expanded: 44 },
 *   { value: 440, sweepCount: 3, sweepPercent: 2, expanded: 48.4 },
 *   0,
 * ).howMuch.words // => "change 40 ± 65: too small to state"
 */
export function changeVerdict(before: ComparedResult, after: ComparedResult, resolution: number): ChangeVerdict {
  const percent = changePercent(before.value, after.value);
  const didChange = compareSweeps(before, after, resolution);
  const howMuch = changeByUncertainty(before.value, after.value, before.expanded, after.expanded);
  return { changePercent: percent, didChange, howMuch, words: `${didChange.words}; ${howMuch.words}` };
}
