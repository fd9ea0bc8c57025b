import { requireFiniteResult } from "../check/require.js";
import type { Airflow, Ratio } from "../units/quantity.js";
import { balanceRatio } from "./balance-ratio.js";
import { type BalanceOutlet, measuredOutlets, requireOutlets } from "./outlet.js";

/** Both sums over the outlets that were read, and which were not. */
export interface CommonRatio {
  /** Undefined while no outlet was read. */
  readonly ratio: Ratio | undefined;
  readonly measuredFlow: Airflow;
  readonly designFlow: Airflow;
  /** Names of the outlets that were not read; they are in neither sum. */
  readonly notMeasured: readonly string[];
}

/**
 * Returns the ratio that every outlet would have if the same total were shared in proportion.
 *
 * R = ΣQ / ΣD
 *
 * Throttling lowers the total, so that the ratio reached at the end is somewhat lower and the fan makes up for it. It
 * is not the mean of the outlets' ratios: a large outlet counts for more than a small one.
 *
 * @param outlets - Outlets of a branch or a system, at least one
 * @returns The ratio, both sums, and the names of the outlets that were not read
 * @throws {DomainError} When there is no outlet or an airflow is out of range
 * @source Proportional (ratio) balancing, common practice; the invariant is derived
 * @example
 * commonRatio([
 *   { name: "1", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "2", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ]).ratio // => 1.0727
 */
export function commonRatio(outlets: readonly BalanceOutlet[]): CommonRatio {
  requireOutlets(outlets);
  const measured = measuredOutlets(outlets);
  const measuredFlow = measured.reduce((sum, outlet) => sum + outlet.measuredFlow, 0);
  const designFlow = measured.reduce((sum, outlet) => sum + outlet.designFlow, 0);
  return {
    ratio:
      measured.length === 0 ? undefined : balanceRatio(measuredFlow, requireFiniteResult("designFlow", designFlow)),
    measuredFlow,
    designFlow,
    notMeasured: outlets.filter((outlet) => outlet.measuredFlow === undefined).map((outlet) => outlet.name),
  };
}
