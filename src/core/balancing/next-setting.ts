import { requireAtLeast } from "../check/require.js";
import type { Airflow, Ratio } from "../units/quantity.js";
import { balanceRatio } from "./balance-ratio.js";
import { keyOutlet } from "./key-outlet.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets } from "./outlet.js";

/** The outlet to set next and the airflow at which to stop. */
export interface NextSetting {
  readonly outlet: MeasuredOutlet;
  readonly key: MeasuredOutlet;
  /** The ratio to reach: the key's own at this moment, or a foreseen one where the key will follow. */
  readonly targetRatio: Ratio;
  readonly targetFlow: Airflow;
}

/**
 * Returns the outlet of a branch to set next, and the reading at which its ratio equals the key's.
 *
 * Target = R(key) · D; for an outlet set before, or larger than all others, R(key) · D · (ΣQ / S)^(R(key) · D / S) with
 * S = ΣQ − Q + R(key) · D
 *
 * The outlet of lowest ratio that does not match the key. The key rises while another outlet is throttled: read both
 * again after each setting and ask again. An outlet throttled too far comes first, to be opened a little.
 *
 * The second target foresees how the key follows. The truth lies between the key's ratio, if the key did not follow,
 * and the ratio at which both would meet at the same total; the larger the outlet, the nearer the second. With the
 * key's ratio alone an outlet of more than half the branch would swing from open to too far closed without end.
 *
 * @param outlets - Outlets of one branch as read last, at least one
 * @param matchingRatio - Difference that still counts as matched, as a part of the key's ratio, 0 or more [ratio]
 * @returns The setting; undefined when every outlet that was read matches the key, none was read, or the key gets no
 *   air, so that nothing can be matched to it
 * @throws {DomainError} When there is no outlet, an airflow is out of range or the allowed difference is negative
 * @source Proportional (ratio) balancing, common practice, no source; the second target is derived
 * @example
 * nextSetting([
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ], 0.02) // => { targetFlow: 80, targetRatio: 0.8 }
 */
export function nextSetting(outlets: readonly BalanceOutlet[], matchingRatio: Ratio): NextSetting | undefined {
  requireAtLeast("matchingRatio", matchingRatio, 0);
  const key = keyOutlet(outlets);
  if (!key || key.ratio <= 0) return undefined;
  const allowed = key.ratio * matchingRatio;
  const measured = measuredOutlets(outlets);
  const [outlet] = measured
    .filter((one) => Math.abs(one.ratio - key.ratio) > allowed)
    .sort((one, other) => one.ratio - other.ratio);
  if (!outlet) return undefined;
  const targetFlow = targetAirflow(outlet, key, measured);
  return { outlet, key, targetRatio: balanceRatio(targetFlow, outlet.designFlow), targetFlow };
}

/** The key's ratio for an outlet that hardly moves the key, and nearer to where both meet the more it does. */
function targetAirflow(outlet: MeasuredOutlet, key: MeasuredOutlet, measured: readonly MeasuredOutlet[]): Airflow {
  const atKeyRatio = key.ratio * outlet.designFlow;
  const total = measured.reduce((sum, one) => sum + Math.max(0, one.measuredFlow), 0);
  const others = total - Math.max(0, outlet.measuredFlow);
  if (outlet.damper === "open" && atKeyRatio <= others) return atKeyRatio;
  const sharing = others + atKeyRatio;
  return atKeyRatio * (total / sharing) ** (atKeyRatio / sharing);
}
