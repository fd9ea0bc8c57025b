import { balanceAdvice, lowOutlets } from "../core/index.js";
import { guard, NOTHING_YET } from "./guard.js";
import { readBalanceLimits } from "./read-limits.js";
import { readNames, readOutlets, wholeOutlets } from "./read-outlets.js";
import { readOptional } from "./read-range.js";
import { spillByPlace } from "./spill-by-place.js";

/**
 * Names the outlets below their limit that their own damper cannot raise, and what can: others, duct, fan or design.
 *
 * @customfunction BALANCE.LOW
 * @param measured Column of measured airflows, as read last [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [fanMost] The most that the fan can give, where known [cfm or L/s].
 * @param [minus] How far below design is allowed; 10 when left out [%].
 * @param [taken] COUNT of the measured cells, so that a measured 0 is told from a blank cell.
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
    const { minusPercent } = readBalanceLimits(minus, null);
    const fanMaximumFlow = readOptional("fanMost", fanMost, Number.POSITIVE_INFINITY);
    return spillByPlace(readOutlets({ measured, design, branch, throttled, taken }), (outlets) =>
      lowOutlets(outlets, minusPercent, fanMaximumFlow).map(
        ({ outlet, reason, words }) => [outlet.name, `${reason}: ${words}`] as const,
      ),
    );
  });
}

/**
 * Says what to do next in a system: read, set an outlet, set a branch, set the fan, report a shortfall, or stop.
 *
 * @customfunction BALANCE.ADVICE
 * @param measured Column of measured airflows, as read last [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [names] Column of outlet names for the sentence.
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [throttledBranches] Names of the branches whose own damper somebody has throttled.
 * @param [fanMost] The most that the fan can give, where known [cfm or L/s].
 * @param [minus] How far below design is allowed; 10 when left out [%].
 * @param [plus] How far above design is allowed; 10 when left out [%].
 * @param [taken] COUNT of the measured cells, so that a measured 0 is told from a blank cell.
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
): any {
  return guard(() => {
    const outlets = wholeOutlets(readOutlets({ measured, design, names, branch, throttled, taken }));
    if (outlets.length === 0) return NOTHING_YET;
    return balanceAdvice({
      outlets,
      throttledBranches: readNames(throttledBranches),
      fanMaximumFlow: readOptional("fanMost", fanMost, Number.POSITIVE_INFINITY),
      limits: readBalanceLimits(minus, plus),
      // The columns may be in either, and their headers say in which.
      flowUnit: null,
    }).words;
  });
}
