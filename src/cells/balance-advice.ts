import { airflowWords, balanceAdvice, lowOutlets, type ReadingOrder } from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { guard, NOTHING_YET } from "./guard.js";
import { readBalanceLimits, readMinus } from "./read-limits.js";
import { type ListedOutlet, readNames, readOutlets, wholeOutlets } from "./read-outlets.js";
import { readOptional, readOptionalZero } from "./read-range.js";
import { spillByPlace } from "./spill-by-place.js";

/**
 * Names the outlets below their limit that their own damper cannot raise, and what can: others, duct, fan or design.
 *
 * @customfunction BALANCE.LOW
 * @param measured Column of measured airflows, as read last [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [fanMost] Maximum fan airflow, where known [cfm or L/s].
 * @param [minus] How far below design is allowed; 10 when left out, "none" for nothing [%].
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns A column with the reason and what to do beside each such outlet, once all were read.
 * @roles measured design taken
 */
export function vaneBalanceLow(
  measured: any[][],
  design: any[][],
  branch?: any[][],
  throttled?: any[][],
  fanMost?: any,
  minus?: any,
  taken?: any,
): any[][] {
  return guard(() => {
    const minusPercent = readMinus(minus);
    const fanMaximumFlow = readOptional("fanMost", fanMost, Number.POSITIVE_INFINITY);
    return spillByPlace(readOutlets({ measured, design, branch, throttled, taken }), (outlets) =>
      lowOutlets(outlets, minusPercent, fanMaximumFlow).map(
        ({ outlet, reason, words }) => [outlet.name, `${reason}: ${words}`] as const,
      ),
    );
  });
}

/**
 * Says what to do next in a system: read, set an outlet, set a branch, set the fan, report a shortfall, or stop. With
 * order and changes it knows which readings are older than the last change: it asks for them, and never says done on
 * them.
 *
 * @customfunction BALANCE.ADVICE
 * @param measured Column of measured airflows, as read last [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [names] Column of outlet names for the sentence.
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [throttledBranches] Names of the branches whose own damper somebody has throttled.
 * @param [fanMost] Maximum fan airflow, where known [cfm or L/s].
 * @param [minus] How far below design is allowed, with plus; both 10 when both are left out, "none" for nothing [%].
 * @param [plus] How far above design is allowed, with minus [%].
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @param [order] Column that says how many changes had been made when each outlet was read, 0 before the first; or the word old where it was read before the last change.
 * @param [changes] How many changes of a damper or the fan have been made so far; the advice stops after eight an outlet.
 * @param [repeatability] How well one reading repeats, one standard deviation; readings are taken as they are when left out [%].
 * @param [round] Column of the airflows when all were last read with no change in between; saves readings [cfm or L/s].
 * @param [averaged] Column that says of how many readings each airflow is the average; 1 when left out.
 * @returns The next step in a sentence.
 * @roles measured design taken
 */
export function vaneBalanceAdvice(
  measured: any[][],
  design: any[][],
  names?: any[][],
  branch?: any[][],
  throttled?: any[][],
  throttledBranches?: any[][],
  fanMost?: any,
  minus?: any,
  plus?: any,
  taken?: any,
  order?: any[][],
  changes?: any,
  repeatability?: any,
  round?: any[][],
  averaged?: any[][],
): any {
  return guard(() => {
    const columns = { measured, design, names, branch, throttled, taken, order, round, averaged };
    const outlets = wholeOutlets(readOutlets(columns));
    if (outlets.length === 0) return NOTHING_YET;
    return balanceAdvice({
      outlets,
      throttledBranches: readNames(throttledBranches),
      fanMaximumFlow: readOptional("fanMost", fanMost, Number.POSITIVE_INFINITY),
      limits: readBalanceLimits(minus, plus),
      // The columns may be in either unit, and their headers say in which.
      airflowWords,
      order: readOrder(
        outlets,
        readOptionalZero("changes", changes, 0),
        readOptional("repeatability", repeatability, 0),
      ),
    }).words;
  });
}

/** What the sheet says of the order: where it does not say when an outlet was read, that was before the first change. */
function readOrder(outlets: readonly ListedOutlet[], changeCount: number, repeatPercent: number): ReadingOrder {
  if (!(Number.isSafeInteger(changeCount) && changeCount >= 0)) throw wrongInput("changes must be a whole number.");
  const read = outlets.filter(({ measuredFlow }) => measuredFlow !== undefined);
  const late = read.find(({ readAfter }) => (readAfter ?? 0) > changeCount);
  if (late !== undefined) {
    throw wrongInput(
      `order of ${late.name} is ${late.readAfter}, but changes is ${changeCount}. Count the change there too.`,
    );
  }
  return {
    old: read.filter(({ readAfter }) => (readAfter ?? 0) < changeCount).map(({ name }) => name),
    round: Object.fromEntries(
      outlets.flatMap(({ name, roundFlow }) => (roundFlow === null ? [] : [[name, roundFlow]])),
    ),
    set: outlets.filter(({ damper }) => damper === "throttled").map(({ name }) => name),
    counts: Object.fromEntries(
      outlets.flatMap(({ name, averagedCount }) => (averagedCount === null ? [] : [[name, averagedCount]])),
    ),
    changeCount,
    repeatPercent,
  };
}
