import { type BalanceOutlet, requireOutlets } from "./outlet.js";

/** The outlets of one branch. */
export interface Branch {
  readonly name: string;
  readonly outlets: readonly BalanceOutlet[];
}

/**
 * Groups the outlets of a system by branch: proportion is set inside each first.
 *
 * @param outlets - Outlets of a system, at least one
 * @returns The branches in the order in which the list first names them, each with its outlets in the order of the list
 * @throws {DomainError} When there is no outlet or an airflow is out of range
 * @source Proportional (ratio) balancing, common practice, no source
 * @example
 * branchesOf([
 *   { name: "Hall", branch: "North", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "South", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ]).map((branch) => branch.name) // => ["North", "South"]
 */
export function branchesOf(outlets: readonly BalanceOutlet[]): readonly Branch[] {
  requireOutlets(outlets);
  const byName = new Map<string, BalanceOutlet[]>();
  for (const outlet of outlets) {
    const branch = byName.get(outlet.branch);
    if (branch) branch.push(outlet);
    else byName.set(outlet.branch, [outlet]);
  }
  return [...byName].map(([name, members]) => ({ name, outlets: members }));
}
