import { requirePositive } from "../check/require.js";
import type { Cfm, Ratio } from "../units/quantity.js";
import { branchesOf } from "./branches-of.js";
import { commonRatio } from "./common-ratio.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets, requireOutlets } from "./outlet.js";
import { percentWords } from "./percent-words.js";

/**
 * Why an outlet below its band cannot be raised by its own damper, which is open already.
 *
 * "others": throttling other outlets raises it. No damper raises the rest: "duct" looks at its own way, "fan" at the
 * total, "design" at the sum that was designed.
 */
export type LowReason = "others" | "duct" | "fan" | "design";

/** An open outlet below its band, and what can raise it. */
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
 * Names the outlets below their band that their own damper cannot raise, each with the reason.
 *
 * duct: R < ½ · R(neighbours); design: low · ΣD > the fan's most; fan: ΣQ < low · ΣD; otherwise others
 *
 * @param outlets - Outlets of a system, at least one; the answer stays empty until all were read
 * @param lowRatio - Lower end of the band around design, above 0 [ratio]
 * @param fanMostCfm - The most that the fan can give; Infinity where nobody knows [cfm]
 * @returns The low outlets, branch by branch
 * @throws {DomainError} When there is no outlet, or an airflow or the lower end is out of range
 * @source Derived from parallel resistances; the limit of one half is common practice, no source
 * @example
 * lowOutlets([
 *   { name: "Hall", branch: "", designCfm: 100, measuredCfm: 140, damper: "open" },
 *   { name: "Bath", branch: "", designCfm: 120, measuredCfm: 36, damper: "open" },
 * ], 0.95, Infinity).map((low) => low.reason) // => ["duct"]
 */
export function lowOutlets(outlets: readonly BalanceOutlet[], lowRatio: Ratio, fanMostCfm: Cfm): readonly LowOutlet[] {
  requireOutlets(outlets);
  requirePositive("lowRatio", lowRatio);
  if (fanMostCfm !== Number.POSITIVE_INFINITY) requirePositive("fanMostCfm", fanMostCfm);
  const system = commonRatio(outlets);
  if (system.notMeasured.length > 0) return [];
  const whole = wholeReason(system, lowRatio, fanMostCfm);
  return branchesOf(outlets).flatMap(({ outlets: members }) => {
    const branch = commonRatio(members);
    const branchReason = starvedBranch(branch, system);
    return measuredOutlets(members)
      .filter((outlet) => outlet.damper === "open" && outlet.ratio < lowRatio)
      .map((outlet) => ({ outlet, ...(starvedOutlet(outlet, branch) ?? branchReason ?? whole) }));
  });
}

type Reason = Pick<LowOutlet, "reason" | "words">;

interface Sums {
  readonly measuredCfm: Cfm;
  readonly designCfm: Cfm;
}

/** The reason that holds for every low outlet alike. */
function wholeReason(system: Sums, lowRatio: Ratio, fanMostCfm: Cfm): Reason {
  const { measuredCfm, designCfm } = system;
  if (designCfm * lowRatio > fanMostCfm) {
    const share = percentWords(fanMostCfm / designCfm);
    const words = `the fan gives ${share} of the sum of the design airflows at most: ask the designer`;
    return { reason: "design", words };
  }
  if (measuredCfm < lowRatio * designCfm) {
    const share = percentWords(measuredCfm / designCfm);
    const words = `all outlets together get ${share} of design: raise the fan, or find where air is lost on the way`;
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
  const ratio = branch.measuredCfm / branch.designCfm;
  if (others === undefined || ratio >= SUSPECT_PART * others) return undefined;
  return {
    reason: "duct",
    words: `its whole branch gets ${percentWords(ratio)} of design, the others ${percentWords(others)}: ${LOOK} where the branch leaves`,
  };
}

/** The ratio of the rest of a sum without one of its parts; undefined where nothing is left. */
function ratioWithout(whole: Sums, part: Sums): Ratio | undefined {
  const designCfm = whole.designCfm - part.designCfm;
  // What is left of the same numbers added in another order is a rounding error, not an outlet.
  if (designCfm <= whole.designCfm * 1e-9) return undefined;
  return (whole.measuredCfm - part.measuredCfm) / designCfm;
}
