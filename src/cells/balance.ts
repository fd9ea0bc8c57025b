import { balanceRatio, commonRatio, workOrder } from "../core/index.js";
import { guard, NOTHING_YET } from "./guard.js";
import { readOutlets, wholeOutlets } from "./read-outlets.js";
import { spillByPlace } from "./spill-by-place.js";

/**
 * What each outlet gets of its design airflow, as a ratio. Blank rows stay blank.
 *
 * @customfunction BALANCE.RATIO
 * @param measured Column of measured airflows [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns Measured over design, 1 where the design is met [ratio].
 * @roles measured design taken
 */
export function vaneBalanceRatio(measured: any[][], design: any[][], taken?: any): any[][] {
  return guard(() =>
    readOutlets({ measured, design, taken }).spill(({ measuredFlow, designFlow }) =>
      measuredFlow === undefined ? NOTHING_YET : balanceRatio(measuredFlow, designFlow),
    ),
  );
}

/**
 * The ratio that all outlets would share if the same total were spread in proportion: the sum of what was measured
 * over the sum of its design. Outlets without a reading are in neither sum.
 *
 * @customfunction BALANCE.COMMON
 * @param measured Column of measured airflows [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns Sum of measured over sum of design [ratio].
 * @roles measured design taken
 */
export function vaneBalanceCommon(measured: any[][], design: any[][], taken?: any): any {
  return guard(() => {
    const outlets = wholeOutlets(readOutlets({ measured, design, taken }));
    return outlets.length === 0 ? NOTHING_YET : (commonRatio(outlets).ratio ?? NOTHING_YET);
  });
}

/**
 * Order of work: branch by branch from the one that gets most, and in each from its key outlet upwards.
 *
 * @customfunction BALANCE.ORDER
 * @param measured Column of measured airflows [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [branch] Column of branch names; one branch when left out.
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns A column of places, 1 first; blank where nobody has read the outlet.
 * @roles measured design taken
 */
export function vaneBalanceOrder(measured: any[][], design: any[][], branch?: any[][], taken?: any): any[][] {
  return guard(() =>
    spillByPlace(readOutlets({ measured, design, branch, taken }), (outlets) =>
      workOrder(outlets).map(({ name }, index) => [name, index + 1] as const),
    ),
  );
}
