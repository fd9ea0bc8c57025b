import { changeByUncertainty, changePercent, compareSweeps, type SweptResult, sampleSpread } from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { guard, NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import {
  allReadings,
  asSingle,
  isGiven,
  type Readings,
  readMeasured,
  readNeeded,
  readOptional,
  readReadings,
} from "./read-range.js";

/** Reads the result after the work; null while it is blank. A measured 0 needs its own COUNT. */
function readAfter(after: unknown, taken: unknown): number | null {
  if (!isGiven(asSingle(after)) && !isGiven(asSingle(taken))) return null;
  return readMeasured("after", after, taken);
}

function readPercent(argument: string, value: unknown): number | null {
  const percent = readOptional(argument, value, null);
  if (percent !== null && percent < 0) throw wrongInput(`${argument} must be above 0.`);
  return percent;
}

/** Reads how many whole sweeps a result is the mean of, null where nobody says. */
function readSweeps(argument: string, value: unknown, least: number): number | null {
  const count = readOptional(argument, value, null);
  if (count === null || (Number.isSafeInteger(count) && count >= least)) return count;
  throw wrongInput(`${argument} must be how many whole sweeps were made, ${least} or more.`);
}

/** One side with its scatter; a stated repeatability says nothing without the count that it comes from. */
function sweptResult(value: number, repeat: number | null, count: number | null, argument: string): SweptResult {
  if (repeat === null) return { value, sweepCount: count ?? 1, sweepPercent: null };
  if (count === null) {
    throw missingInput(`${argument} is missing beside the repeatability. Enter how many whole sweeps it comes from.`);
  }
  return { value, sweepCount: count, sweepPercent: repeat * Math.sqrt(count) };
}

/**
 * How much a result rose or fell, in percent of what it was before. Columns of equal height give a column.
 *
 * @customfunction CHANGE.PERCENT
 * @param before Result before the work [cfm or L/s].
 * @param after Result after the work, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the after cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @returns Change, negative where it fell [%].
 * @roles taken
 */
export function vaneChangePercent(before: any[][], after: any[][], taken?: any[][]): any[][] {
  const counts = measuredCounts("after", after, taken);
  return overBlocks(["before", "after", "taken"], [before, after, counts], (oneBefore, oneAfter, oneTaken) => {
    const measured = readAfter(oneAfter, oneTaken);
    if (measured === null) return NOTHING_YET;
    return changePercent(readNeeded("before", oneBefore), measured);
  });
}

/**
 * Says whether a result changed, from how well it repeats, and by how much that is known. Same instrument, same
 * opening, same person. With every sweep in a cell of its own CHANGE.SWEEPS is the better question.
 *
 * @customfunction CHANGE.VERDICT
 * @param before Result before the work [cfm or L/s].
 * @param after Result after the work, in the same unit [cfm or L/s].
 * @param [repeatability] How well each result repeats, as UNCERTAINTY.REPEAT gives it; 5 for one sweep is assumed when left out [%].
 * @param [uncertainty] The ± of each result (95 %), everything counted; adds by how much it is known [%].
 * @param [taken] COUNT of the after cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @param [sweeps] How many whole sweeps the result and its repeatability come from; 1 when both are left out.
 * @param [afterRepeatability] The same for the result after, where it has its own [%].
 * @param [afterSweeps] How many whole sweeps the result after comes from, where it has its own.
 * @param [resolution] The smallest step of the meter's display; no average repeats better than it allows [cfm or L/s].
 * @returns The words higher, lower or no clear change, and what the answer rests on.
 * @roles taken
 */
export function vaneChangeVerdict(
  before: any[][],
  after: any[][],
  repeatability?: any[][],
  uncertainty?: any[][],
  taken?: any[][],
  sweeps?: any[][],
  afterRepeatability?: any[][],
  afterSweeps?: any[][],
  resolution?: any[][],
): any[][] {
  const own = ["repeatability", "uncertainty", "taken", "sweeps", "afterRepeatability", "afterSweeps", "resolution"];
  const counts = measuredCounts("after", after, taken);
  const blocks = [
    before,
    after,
    repeatability,
    uncertainty,
    counts,
    sweeps,
    afterRepeatability,
    afterSweeps,
    resolution,
  ];
  return overBlocks(["before", "after", ...own], blocks, (oneBefore, oneAfter, ...doubts) => {
    const [repeat, full, oneTaken, count, repeatAfter, countAfter, step] = doubts;
    const measured = readAfter(oneAfter, oneTaken);
    if (measured === null) return NOTHING_YET;
    const value = readNeeded("before", oneBefore);
    const repeatPercent = readPercent("repeatability", repeat);
    const ownPercent = readPercent("afterRepeatability", repeatAfter);
    const first = readSweeps("sweeps", count, repeatPercent === null ? 1 : 2);
    const second = readSweeps("afterSweeps", countAfter, ownPercent === null ? 1 : 2) ?? first;
    // One repeatability for both sides was found once: it counts once.
    const didChange = compareSweeps(
      sweptResult(value, repeatPercent, first, "sweeps"),
      sweptResult(measured, ownPercent, second, "afterSweeps"),
      readOptional("resolution", step, 0),
    );
    return withAmount(didChange.words, value, measured, readPercent("uncertainty", full));
  });
}

/** Adds by how much a change is known, where somebody states the ± of both results. */
function withAmount(words: string, before: number, after: number, fullPercent: number | null): string {
  if (fullPercent === null) return words;
  const expanded = (value: number) => (fullPercent / 100) * Math.abs(value);
  return `${words}; ${changeByUncertainty(before, after, expanded(before), expanded(after)).words}`;
}

/**
 * Says whether a result changed, from the sweeps themselves: a block of whole sweeps before and one after. Same
 * instrument, same opening, same person. One sweep on each side shows only a large change.
 *
 * @customfunction CHANGE.SWEEPS
 * @param before Results of whole sweeps before the work [fpm, cfm or SI].
 * @param after Results of whole sweeps after the work, in the same unit [fpm, cfm or SI].
 * @param [takenBefore] COUNT of the cells before; lets a 0 reading count and a blank be skipped.
 * @param [taken] COUNT of the cells after; lets a 0 reading count and a blank be skipped.
 * @param [uncertainty] The ± of each result (95 %), everything counted; adds by how much it is known [%].
 * @param [resolution] The smallest step of the meter's display; no average repeats better than it allows [fpm, cfm or SI].
 * @returns The words higher, lower or no clear change, and what the answer rests on.
 * @roles taken
 */
export function vaneChangeSweeps(
  before: any[][],
  after: any[][],
  takenBefore?: any,
  taken?: any,
  uncertainty?: any,
  resolution?: any,
): any {
  return guard(() => {
    const first = readReadings("before", before, takenBefore);
    const second = readReadings("after", after, taken);
    if (first === null || second === null) return NOTHING_YET;
    const [one, other] = [sweptSide("before", first), sweptSide("after", second)];
    const words = compareSweeps(one, other, readOptional("resolution", resolution, 0)).words;
    return withAmount(words, one.value, other.value, readPercent("uncertainty", uncertainty));
  });
}

/** The mean of whole sweeps with their own scatter. Sweeps of 0 count: where all are, their mean has no scatter in percent. */
function sweptSide(argument: string, read: Readings): SweptResult {
  const sweeps = allReadings(read);
  const [single] = sweeps;
  if (sweeps.length === 1 && single !== undefined) return { value: single, sweepCount: 1, sweepPercent: null };
  if (sweeps.some((sweep) => !(sweep >= 0))) throw wrongInput(`${argument} must hold sweeps of 0 or more.`);
  const value = sweeps.reduce((sum, sweep) => sum + sweep / sweeps.length, 0);
  return { value, sweepCount: sweeps.length, sweepPercent: value === 0 ? null : sampleSpread(sweeps) };
}
