import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets, requireOutlets } from "./outlet.js";

/**
 * Returns the key outlet of a branch: the one that gets least of its design airflow, whose damper stays open.
 *
 * The lowest R = Q / D among the open dampers; among all where every damper is throttled
 *
 * An outlet that somebody has throttled may read lower for a while without becoming the key. The key is the outlet of
 * lowest ratio, which need not be the farthest from the fan.
 *
 * @param outlets - Outlets of one branch, at least one
 * @returns The key outlet with its ratio, the first in the list of equals; undefined while none was read
 * @throws {DomainError} When there is no outlet or an airflow is out of range
 * @source Proportional (ratio) balancing, common practice, no source
 * @example
 * keyOutlet([
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 * ]) // => { name: "Bath", ratio: 0.8 }
 */
export function keyOutlet(outlets: readonly BalanceOutlet[]): MeasuredOutlet | undefined {
  requireOutlets(outlets);
  const measured = measuredOutlets(outlets);
  const open = measured.filter((outlet) => outlet.damper === "open");
  const [first, ...rest] = open.length > 0 ? open : measured;
  return first && rest.reduce((lowest, outlet) => (outlet.ratio < lowest.ratio ? outlet : lowest), first);
}
