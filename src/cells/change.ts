import { UNCERTAINTY_DEFAULTS } from "../../shared/tables/uncertainty-defaults.js";
import { changeByRepeatability, changeByUncertainty, changePercent, standardFromExpanded } from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import { asSingle, isGiven, readMeasured, readNeeded, readOptional } from "./read-range.js";

/** Reads the result after the work; null while it is blank. A measured 0 needs its own COUNT. */
function readAfter(after: unknown, taken: unknown): number | null {
  if (!isGiven(asSingle(after)) && !isGiven(asSingle(taken))) return null;
  return readMeasured("after", after, taken);
}

function readPercent<Default>(argument: string, value: unknown, whenNotGiven: Default): number | Default {
  const percent = readOptional(argument, value, whenNotGiven);
  if (typeof percent === "number" && percent < 0) throw wrongInput(`${argument} must be above 0.`);
  return percent;
}

/**
 * How much a result rose or fell, in percent of what it was before. Columns of equal height give a column.
 *
 * @customfunction CHANGE.PERCENT
 * @param before Result before the work [cfm or L/s].
 * @param after Result after the work, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the after cells, or a column with the COUNT of each, so that a measured 0 is told from a blank cell.
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
 * Says whether a result changed, by repeatability, and by how much that is known, by the full uncertainty. Same
 * instrument, same face, same person. Columns of equal height give a column.
 *
 * @customfunction CHANGE.VERDICT
 * @param before Result before the work [cfm or L/s].
 * @param after Result after the work, in the same unit [cfm or L/s].
 * @param [repeatability] Standard uncertainty of each result from repeats; 2.5 is assumed when left out [%].
 * @param [uncertainty] The ± of each result at about 95 %, everything counted; adds by how much it is known [%].
 * @param [taken] COUNT of the after cells, or a column with the COUNT of each, so that a measured 0 is told from a blank cell.
 * @returns The words higher, lower or no change shown, and what each answer rests on.
 * @roles taken
 */
export function vaneChangeVerdict(
  before: any[][],
  after: any[][],
  repeatability?: any[][],
  uncertainty?: any[][],
  taken?: any[][],
): any[][] {
  const names = ["before", "after", "repeatability", "uncertainty", "taken"];
  const blocks = [before, after, repeatability, uncertainty, measuredCounts("after", after, taken)];
  return overBlocks(names, blocks, (oneBefore, oneAfter, oneRepeatability, oneUncertainty, oneTaken) => {
    const measured = readAfter(oneAfter, oneTaken);
    if (measured === null) return NOTHING_YET;
    const first = readNeeded("before", oneBefore);
    const of = (percent: number, value: number) => (percent / 100) * Math.abs(value);
    const repeat = readPercent("repeatability", oneRepeatability, null);
    const repeatPercent = repeat ?? standardFromExpanded(UNCERTAINTY_DEFAULTS.repeat.plusMinusPercent, 2);
    const didChange = changeByRepeatability(first, measured, of(repeatPercent, first), of(repeatPercent, measured));
    const answers = [didChange.words];
    const full = readPercent("uncertainty", oneUncertainty, null);
    if (full !== null) answers.push(changeByUncertainty(first, measured, of(full, first), of(full, measured)).words);
    if (repeat === null) answers.push(`repeatability of ${repeatPercent} % assumed`);
    return answers.join("; ");
  });
}
