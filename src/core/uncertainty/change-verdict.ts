import type { Percent } from "../units/quantity.js";
import { type ChangeByRepeatability, changeByRepeatability } from "./change-by-repeatability.js";
import { type ChangeByUncertainty, changeByUncertainty } from "./change-by-uncertainty.js";
import { changePercent } from "./change-percent.js";

/** A result with both of its doubts, all in one unit. */
export interface ComparedResult {
  readonly value: number;
  /** Standard uncertainty from repeats with the same instrument at the same face. */
  readonly repeatStandard: number;
  /** The ± of the value at about 95 %, everything counted. */
  readonly expanded: number;
}

/** Both answers on a change, each naming what it rests on. */
export interface ChangeVerdict {
  readonly changePercent: Percent;
  /** Did it change? */
  readonly didChange: ChangeByRepeatability;
  /** By how much is it known? */
  readonly howMuch: ChangeByUncertainty;
  readonly words: string;
}

/**
 * Answers both questions on work done: did the result change, and by how much is that known.
 *
 * z = |x₂ − x₁| / √(u₁² + u₂²), Eₙ = |x₂ − x₁| / √(U₁² + U₂²)
 *
 * @param before - Result before the work, above 0, with its two doubts [same unit]
 * @param after - Result after the work with its two doubts [same unit]
 * @returns The change in percent, the answer by repeatability, the answer by full uncertainty, and both in words
 * @throws {DomainError} When a result is out of range or its doubts are negative or all 0
 * @source JCGM 100:2008 (GUM), 5.1.2; number Eₙ of ISO 13528 (from memory, unverified)
 * @example
 * changeVerdict(
 *   { value: 400, repeatStandard: 8, expanded: 44 },
 *   { value: 440, repeatStandard: 9, expanded: 48.4 },
 * ).didChange.z // => 3.3218
 */
export function changeVerdict(before: ComparedResult, after: ComparedResult): ChangeVerdict {
  const percent = changePercent(before.value, after.value);
  const didChange = changeByRepeatability(before.value, after.value, before.repeatStandard, after.repeatStandard);
  const howMuch = changeByUncertainty(before.value, after.value, before.expanded, after.expanded);
  return { changePercent: percent, didChange, howMuch, words: `${didChange.words}; ${howMuch.words}` };
}
