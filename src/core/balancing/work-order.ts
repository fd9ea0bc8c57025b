import { branchesOf } from "./branches-of.js";
import { commonRatio } from "./common-ratio.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets, requireOutlets } from "./outlet.js";

/**
 * Returns the outlets in the order in which they are set: branch by branch, and in each the lowest ratio first.
 *
 * Branches by ΣQ / ΣD, highest first; outlets by Q / D, lowest first, so that the first of each branch is its key
 *
 * Starting at the branch that gets most sends its surplus to the others early.
 *
 * @param outlets - Outlets of a system, at least one
 * @returns The outlets that were read, each with its ratio; equals stay in the order of the list
 * @throws {DomainError} When there is no outlet or an airflow is out of range
 * @source Proportional (ratio) balancing, common practice; the order of branches from memory, unverified
 * @example
 * workOrder([
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ]).map((outlet) => outlet.name) // => ["Bath", "Hall"]
 */
export function workOrder(outlets: readonly BalanceOutlet[]): readonly MeasuredOutlet[] {
  requireOutlets(outlets);
  return branchesOf(outlets)
    .map((branch) => ({
      ratio: commonRatio(branch.outlets).ratio ?? 0,
      measured: measuredOutlets(branch.outlets),
    }))
    .sort((one, other) => other.ratio - one.ratio)
    .flatMap((branch) => [...branch.measured].sort((one, other) => one.ratio - other.ratio));
}
