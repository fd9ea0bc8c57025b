import type { Airflow, Ratio } from "../units/quantity.js";
import type { EstimatedBranch, EstimatedOutlet } from "./estimated-outlets.js";
import { assumedStiffness, foreseenRise, learnedStiffness } from "./foreseen-rise.js";
import { keyOutlet } from "./key-outlet.js";

/** The outlet to set next and the airflow at which to stop. */
export interface NextSetting {
  readonly outlet: EstimatedOutlet;
  readonly key: EstimatedOutlet;
  readonly targetRatio: Ratio;
  readonly targetFlow: Airflow;
}

/** A branch with its key and the ratio at which outlets that are set belong. */
export interface MatchedBranch {
  readonly key: EstimatedOutlet;
  /** Where an outlet that is set is to end, at the present pressure. */
  readonly aimRatio: Ratio;
  /** The outlets with those that were set and not read since put where they were set to end. */
  readonly outlets: readonly EstimatedOutlet[];
}

/**
 * Returns the key of a branch and where the outlets that have to be set belong.
 *
 * aim = √(R(key) · R(highest that stays)), the middle of what stays untouched
 *
 * @param branch - The branch as it most likely stands
 * @param windowRatio - Highest over lowest that may stay untouched, 1 or more [ratio]
 * @returns Undefined where no outlet gets air
 * @source Derived: the middle leaves most room on both sides
 */
export function matchedBranch({ outlets }: EstimatedBranch, windowRatio: Ratio): MatchedBranch | undefined {
  if (outlets.length === 0) return undefined;
  const untouched = outlets.filter(({ isSet }) => !isSet);
  const pool = untouched.some(({ damper }) => damper === "open") ? untouched : outlets;
  const name = keyOutlet(pool)?.name;
  const key = outlets.find((outlet) => outlet.name === name);
  if (key === undefined || key.ratio <= 0) return undefined;
  const staying = untouched.filter(({ ratio }) => ratio >= key.ratio && ratio <= key.ratio * windowRatio);
  const aimRatio = Math.sqrt(key.ratio * Math.max(key.ratio, ...staying.map(({ ratio }) => ratio)));
  const placed = outlets.map((outlet) =>
    outlet.isSet && !outlet.isFresh
      ? { ...outlet, ratio: aimRatio, measuredFlow: aimRatio * outlet.designFlow }
      : outlet,
  );
  return { key, aimRatio, outlets: placed };
}

/**
 * Returns the outlet of a branch to set next, and the reading at which it matches the key.
 *
 * Q = f · R(aim) · D, with f the rise of the others that this very move brings about
 *
 * The lowest that does not match comes first: it moves the others least, and from how the key follows the larger moves
 * are foreseen. One that was throttled below the key is opened.
 *
 * @param branch - The branch as it most likely stands
 * @param windowRatio - Highest over lowest that counts as matched, 1 or more [ratio]
 * @param knownStiffness - The figure α of the branch, 0 where its pressure is kept; null to learn or assume it
 * @returns The setting; undefined when every outlet matches, or the key gets no air
 * @source Proportional (ratio) balancing, common practice, no source; the foreseen rise is derived
 * @example
 * nextSetting(estimatedBranch("", [
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ], FRESH_READINGS), 1.1, null) // => { targetFlow: 88.494, targetRatio: 0.88494 }
 */
export function nextSetting(
  branch: EstimatedBranch,
  windowRatio: Ratio,
  knownStiffness: number | null,
): NextSetting | undefined {
  const matched = matchedBranch(branch, windowRatio);
  if (matched === undefined) return undefined;
  const { key, aimRatio, outlets } = matched;
  const most = key.ratio * windowRatio;
  const highest = Math.max(...outlets.map(({ ratio }) => ratio).filter((ratio) => ratio <= most));
  const [outlet] = outlets
    .filter(({ name, ratio, damper }) => {
      return name !== key.name && (ratio > most || (damper === "throttled" && ratio * windowRatio < highest));
    })
    .sort((one, other) => one.ratio - other.ratio);
  if (outlet === undefined) return undefined;
  const total = outlets.reduce((sum, one) => sum + Math.max(0, one.measuredFlow), 0);
  const atAim = aimRatio * outlet.designFlow;
  const shared = (total - Math.max(0, outlet.measuredFlow) + atAim) / total;
  const learned = knownStiffness ?? stiffnessOf(branch, total);
  const stiffness = learned ?? assumedStiffness(outlet.damper === "open", outlet.ratio < aimRatio);
  const targetFlow = foreseenRise(shared, stiffness) * atAim;
  return { outlet, key, targetRatio: targetFlow / outlet.designFlow, targetFlow };
}

/** What the moves since the last round tell of the branch; undefined where they tell nothing. */
function stiffnessOf({ riseRatio, roundFlow, outlets }: EstimatedBranch, totalNow: Airflow): number | undefined {
  if (riseRatio === undefined || roundFlow === undefined || !outlets.some(({ isSet }) => isSet)) return undefined;
  return learnedStiffness(riseRatio, totalNow / riseRatio / roundFlow);
}
