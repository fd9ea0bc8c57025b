import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireFinite, requirePositive } from "../check/require.js";
import type { Percent } from "../units/quantity.js";
import { type ChangeByRepeatability, changeByRepeatability } from "./change-by-repeatability.js";
import { effectiveDegreesOfFreedom } from "./effective-degrees-of-freedom.js";
import { resolutionUncertainty } from "./resolution-uncertainty.js";

/** A result that is the mean of whole sweeps. */
export interface SweptResult {
  readonly value: number;
  readonly sweepCount: number;
  /** Relative standard deviation of one sweep, found from these sweeps; null where there was but one. */
  readonly sweepPercent: Percent | null;
}

/** The answer with what it rests on, in words. */
export interface SweepComparison extends ChangeByRepeatability {
  /** Whether no sweep was repeated, so that the repeatability is assumed. */
  readonly isAssumed: boolean;
  readonly words: string;
}

/** Sweeps that differ by less do not differ: what is left is the arithmetic. */
const ALIKE_PERCENT = 1e-8;

/** More degrees of freedom count as so many: the factor hardly falls any more. */
export const MOST_COMPARED_FREEDOM = 20;

/** From this many sweeps on each side, each side's own scatter is known well enough to stand for itself. */
const OWN_SCATTER_SWEEPS = 4;

/**
 * Answers whether a result changed between two sets of whole sweeps.
 *
 * Fewer than four sweeps on a side: Student's test, one relative scatter s for both, u = s · x / √n, ν = n₁ + n₂ − 2;
 * otherwise Welch's test, each side its own scatter. No sweep repeated, or all alike on an unknown display: an assumed
 * scatter
 *
 * The same person with the same meter at the same opening scatters alike before and after, and one scatter from both
 * sides shows far more with two or three sweeps than two that stand alone. Which test it is hangs on the counts alone.
 * Sweeps that do not differ at all tell what the meter's last digit hides, and not that the next would be the same: no
 * mean is known better than δ / √12 of a display in steps of δ, and that comes on top of a scatter that is assumed.
 *
 * @param before - Result before the work, above 0, with its sweeps
 * @param after - Result after the work, with its sweeps
 * @param resolution - Smallest step of the meter's display, 0 where it is not known [same unit]
 * @returns The answer, its figures, and the evidence in words
 * @throws {DomainError} When a result, a count or the step is out of range
 * @source Student's and Welch's tests, general statistics; JCGM 100:2008 (GUM), G.4.1 and F.2.2.1
 * @example
 * compareSweeps(
 *   { value: 400, sweepCount: 3, sweepPercent: 2 },
 *   { value: 440, sweepCount: 3, sweepPercent: 2 },
 *   1,
 * ).words // => "higher (3 and 3 sweeps: a change under 4.9 % would not show)"
 */
export function compareSweeps(before: SweptResult, after: SweptResult, resolution: number): SweepComparison {
  const sides = [before, after] as const;
  requirePositive("before", before.value);
  requireFinite("after", after.value);
  for (const { sweepCount, sweepPercent } of sides) {
    if (!(Number.isInteger(sweepCount) && sweepCount >= 1)) throw new DomainError("sweeps", "1 or more", sweepCount);
    if (sweepPercent !== null) requireAtLeast("sweepPercent", sweepPercent, 0);
  }
  const { standards, freedom, isAssumed, isAlike } = scatterOf(before, after, resolutionUncertainty(resolution));
  const counted = isAssumed ? freedom : Math.min(freedom, MOST_COMPARED_FREEDOM);
  const change = changeByRepeatability(before.value, after.value, standards[0], standards[1], counted);
  const percent = (100 * change.smallestShown) / before.value;
  const shown = percent.toFixed(percent < 10 ? 1 : 0).replace(/\.0$/, "");
  const counts =
    before.sweepCount + after.sweepCount === 2
      ? "one sweep each"
      : `${before.sweepCount} and ${after.sweepCount} sweeps`;
  const assumed = isAssumed ? `${isAlike ? ", all alike" : ""}, repeatability assumed` : "";
  const evidence = `${counts}${assumed}: a change under ${shown} % would not show`;
  return { ...change, isAssumed, words: `${change.answer} (${evidence})` };
}

interface Scatter {
  /** Standard uncertainty of each result, in its unit. */
  readonly standards: readonly [number, number];
  readonly freedom: number;
  readonly isAssumed: boolean;
  /** Whether sweeps were repeated and did not differ at all. */
  readonly isAlike: boolean;
}

function scatterOf(before: SweptResult, after: SweptResult, least: number): Scatter {
  const freedomOf = ({ sweepCount, sweepPercent }: SweptResult) => (sweepPercent === null ? 0 : sweepCount - 1);
  const own = [before, after].map(freedomOf);
  const freedom = (own[0] ?? 0) + (own[1] ?? 0);
  const scattered = ({ value, sweepCount }: SweptResult, percent: Percent) =>
    ((percent / 100) * Math.abs(value)) / Math.sqrt(sweepCount);
  // A scatter that was found holds what the display's steps do to it.
  const withScatter = (beforePercent: Percent, afterPercent: Percent): readonly [number, number] => [
    Math.max(least, scattered(before, beforePercent)),
    Math.max(least, scattered(after, afterPercent)),
  ];
  const squares = [before, after].map((side) => freedomOf(side) * (side.sweepPercent ?? 0) ** 2);
  const isAlike = freedom > 0 && (squares[0] ?? 0) + (squares[1] ?? 0) < ALIKE_PERCENT ** 2;
  if (freedom === 0 || (isAlike && least === 0)) {
    const assumed = UNCERTAINTY_DEFAULTS.repeat.standardPercent;
    const withSteps = (side: SweptResult) => Math.hypot(scattered(side, assumed), least);
    const standards = [withSteps(before), withSteps(after)] as const;
    return { standards, freedom: Number.POSITIVE_INFINITY, isAssumed: true, isAlike };
  }
  if (own.every((one) => one >= OWN_SCATTER_SWEEPS - 1)) {
    const standards = withScatter(before.sweepPercent ?? 0, after.sweepPercent ?? 0);
    const parts = standards.map((standard, i) => ({ standard, degreesOfFreedom: own[i] ?? 1 }));
    return { standards, freedom: effectiveDegreesOfFreedom(parts), isAssumed: false, isAlike };
  }
  const pooled = Math.sqrt(((squares[0] ?? 0) + (squares[1] ?? 0)) / freedom);
  return { standards: withScatter(pooled, pooled), freedom, isAssumed: false, isAlike };
}
