import {
  type BalanceOutlet,
  type Branch,
  branchesOf,
  estimatedBranch,
  FRESH_READINGS,
  keyOutlet,
  matchWindow,
  nextSetting,
} from "../core/index.js";
import { guard } from "./guard.js";
import { readBalanceLimits } from "./read-limits.js";
import { readOutlets } from "./read-outlets.js";
import { spillByPlace } from "./spill-by-place.js";

/** A key chosen before all were read may be the wrong one. */
function wholeBranches(outlets: readonly BalanceOutlet[]): readonly Branch[] {
  return branchesOf(outlets).filter(({ outlets: members }) => members.every((one) => one.measuredFlow !== undefined));
}

/**
 * Marks the key outlet of each branch with the word key: the lowest ratio, whose damper stays open.
 * A branch stays blank until all of its outlets were read.
 *
 * @customfunction BALANCE.KEY
 * @param measured Column of measured airflows [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns A column with the word key beside each key outlet.
 * @roles measured design taken
 */
export function vaneBalanceKey(
  measured: any[][],
  design: any[][],
  branch?: any[][],
  throttled?: any[][],
  taken?: any,
): any[][] {
  return guard(() =>
    spillByPlace(readOutlets({ measured, design, branch, throttled, taken }), (outlets) =>
      wholeBranches(outlets).flatMap(({ outlets: members }) => {
        const key = keyOutlet(members);
        return key ? [[key.name, "key"] as const] : [];
      }),
    ),
  );
}

/**
 * The airflow to set the next outlet of each branch to, so that it matches the key, which rises meanwhile.
 * Set it, read it and the key again, and the next target appears. A branch stays blank until all its outlets were read.
 *
 * @customfunction BALANCE.TARGET
 * @param measured Column of measured airflows, as read last [cfm or L/s].
 * @param design Column of design airflows, in the same unit [cfm or L/s].
 * @param [branch] Column of branch names; one branch when left out.
 * @param [throttled] Column that says TRUE where somebody has throttled the damper.
 * @param [minus] How far below design is allowed, with plus: how near counts as matched; both 10 when both are left out, "none" for nothing [%].
 * @param [plus] How far above design is allowed, with minus [%].
 * @param [taken] COUNT of the measured cells; lets a 0 reading count and a blank be skipped.
 * @returns A column with the airflow beside the outlet to set next in each branch [cfm or L/s].
 * @roles measured design taken
 */
export function vaneBalanceTarget(
  measured: any[][],
  design: any[][],
  branch?: any[][],
  throttled?: any[][],
  minus?: any,
  plus?: any,
  taken?: any,
): any[][] {
  return guard(() => {
    const limits = readBalanceLimits(minus, plus);
    return spillByPlace(readOutlets({ measured, design, branch, throttled, taken }), (outlets) => {
      const { outletRatio } = matchWindow(limits, outlets.length === 0 ? 1 : branchesOf(outlets).length, 0);
      return wholeBranches(outlets).flatMap(({ name, outlets: members }) => {
        const next = nextSetting(estimatedBranch(name, members, FRESH_READINGS), outletRatio, null);
        return next ? [[next.outlet.name, next.targetFlow] as const] : [];
      });
    });
  });
}
