import { requirePositive } from "../check/require.js";
import { isBelowDesign, requireMinus } from "../design/design-limits.js";
import type { Airflow, Percent, Ratio } from "../units/quantity.js";
import { branchesOf } from "./branches-of.js";
import { commonRatio } from "./common-ratio.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets, requireOutlets } from "./outlet.js";
import { percentWords } from "./percent-words.js";

/**
 * Why an outlet below its limit cannot be raised by its own damper, which is open already.
 *
 * "others": throttling other outlets raises it. No damper raises the rest: "duct" looks at its own way, "fan" at the
 * total, "design" at the sum that was designed.
 */
export type LowReason = "others" | "duct" | "fan" | "design";

/** An open outlet below its limit, and what can raise it. */
export interface LowOutlet {
  readonly outlet: MeasuredOutlet;
  readonly reason: LowReason;
  /** What was seen and what to do, without the outlet's name. */
  readonly words: string;
}

/** An outlet or branch that gets less than this part of what its neighbours get is suspect before it is balanced. */
const SUSPECT_PART = 0.5;

const LOOK = "look for a closed damper, a crushed or blocked duct or a leak";

/**
 * Names the outlets below their limit that their own damper cannot raise, each with the reason.
 *
 * duct: R < ½ · R(neighbours); design: (1 − minus / 100) · ΣD above the fan's maximum; fan: ΣQ below (1 − minus / 100) · ΣD; otherwise others
 *
 * @param outlets - Outlets of a system, at least one; the answer stays empty until all were read
 * @param minusPercent - How far below design is allowed, 0 to below 100 [%]
 * @param fanMaximumFlow - Maximum fan airflow; Infinity where nobody knows [cfm or L/s]
 * @returns The low outlets, branch by branch
 * @throws {DomainError} When there is no outlet, or an airflow or the limit is out of range
 * @source Derived from parallel resistances; the limit of one half is common practice, no source
 * @example
 * lowOutlets([
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 36, damper: "open" },
 * ], 5, Infinity).map((low) => low.reason) // => ["duct"]
 */
export function lowOutlets(
  outlets: readonly BalanceOutlet[],
  minusPercent: Percent,
  fanMaximumFlow: Airflow,
): readonly LowOutlet[] {
  requireOutlets(outlets);
  requireMinus(minusPercent);
  if (fanMaximumFlow !== Number.POSITIVE_INFINITY) requirePositive("fanMaximumFlow", fanMaximumFlow);
  const system = commonRatio(outlets);
  if (system.notMeasured.length > 0) return [];
  const whole = wholeReason(system, minusPercent, fanMaximumFlow);
  return branchesOf(outlets).flatMap(({ outlets: members }) => {
    const branch = commonRatio(members);
    const branchReason = starvedBranch(branch, system);
    return measuredOutlets(members)
      .filter(
        (outlet) => outlet.damper === "open" && isBelowDesign(outlet.measuredFlow, outlet.designFlow, minusPercent),
      )
      .map((outlet) => ({ outlet, ...(starvedOutlet(outlet, branch) ?? branchReason ?? whole) }));
  });
}

type Reason = Pick<LowOutlet, "reason" | "words">;

interface Sums {
  readonly measuredFlow: Airflow;
  readonly designFlow: Airflow;
}

/** The reason that holds for every low outlet alike. */
function wholeReason(system: Sums, minusPercent: Percent, fanMaximumFlow: Airflow): Reason {
  const { measuredFlow, designFlow } = system;
  if (isBelowDesign(fanMaximumFlow, designFlow, minusPercent)) {
    const share = percentWords(fanMaximumFlow / designFlow);
    const words = `the fan gives ${share} of the sum of the design airflows at most: ask the designer`;
    return { reason: "design", words };
  }
  if (isBelowDesign(measuredFlow, designFlow, minusPercent)) {
    const share = percentWords(measuredFlow / designFlow);
    const words = `all outlets together get ${share} of design: raise the fan, or look for leaks`;
    return { reason: "fan", words };
  }
  return { reason: "others", words: "throttling the outlets that get more raises it" };
}

function starvedOutlet(outlet: MeasuredOutlet, branch: Sums): Reason | undefined {
  const neighbours = ratioWithout(branch, outlet);
  if (neighbours === undefined || outlet.ratio >= SUSPECT_PART * neighbours) return undefined;
  return {
    reason: "duct",
    words: `the others of its branch get ${percentWords(neighbours)}: ${LOOK} on its own duct`,
  };
}

function starvedBranch(branch: Sums, system: Sums): Reason | undefined {
  const others = ratioWithout(system, branch);
  const ratio = branch.measuredFlow / branch.designFlow;
  if (others === undefined || ratio >= SUSPECT_PART * others) return undefined;
  return {
    reason: "duct",
    words: `its whole branch gets ${percentWords(ratio)} of design, the others ${percentWords(others)}: ${LOOK} where the branch leaves`,
  };
}

/** The ratio of the rest of a sum without one of its parts; undefined where nothing is left. */
function ratioWithout(whole: Sums, part: Sums): Ratio | undefined {
  const designFlow = whole.designFlow - part.designFlow;
  // What is left of the same numbers added in another order is a rounding error, not an outlet.
  if (designFlow <= whole.designFlow * 1e-9) return undefined;
  return (whole.measuredFlow - part.measuredFlow) / designFlow;
}
