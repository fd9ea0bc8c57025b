import { requireAtLeast } from "../check/require.js";
import type { Cfm, Ratio } from "../units/quantity.js";
import { keyOutlet } from "./key-outlet.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets } from "./outlet.js";

/** The outlet to set next and the airflow at which to stop. */
export interface NextSetting {
  readonly outlet: MeasuredOutlet;
  readonly key: MeasuredOutlet;
  /** The ratio to reach: the key's own at this moment. */
  readonly targetRatio: Ratio;
  readonly targetCfm: Cfm;
}

/**
 * Returns the outlet of a branch to set next, and the reading at which its ratio equals the key's.
 *
 * Target = R(key) · D
 *
 * The outlet of lowest ratio that does not match the key. The key rises while another outlet is throttled: read both
 * again after each setting and ask again. An outlet throttled too far comes first, to be opened a little.
 *
 * @param outlets - Outlets of one branch as read last, at least one
 * @param matchingRatio - Difference that still counts as matched, as a part of the key's ratio, 0 or more [ratio]
 * @returns The setting; undefined when every outlet that was read matches the key, none was read, or the key gets no
 *   air, so that nothing can be matched to it
 * @throws {DomainError} When there is no outlet, an airflow is out of range or the allowed difference is negative
 * @source Proportional (ratio) balancing, common practice, no source
 * @example
 * nextSetting([
 *   { name: "Hall", branch: "", designCfm: 100, measuredCfm: 140, damper: "open" },
 *   { name: "Bath", branch: "", designCfm: 120, measuredCfm: 96, damper: "open" },
 * ], 0.02) // => { targetCfm: 80, targetRatio: 0.8 }
 */
export function nextSetting(outlets: readonly BalanceOutlet[], matchingRatio: Ratio): NextSetting | undefined {
  requireAtLeast("matchingRatio", matchingRatio, 0);
  const key = keyOutlet(outlets);
  if (!key || key.ratio <= 0) return undefined;
  const allowed = key.ratio * matchingRatio;
  const [outlet] = measuredOutlets(outlets)
    .filter((one) => Math.abs(one.ratio - key.ratio) > allowed)
    .sort((one, other) => one.ratio - other.ratio);
  return outlet && { outlet, key, targetRatio: key.ratio, targetCfm: key.ratio * outlet.designCfm };
}
