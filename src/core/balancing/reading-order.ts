import { DomainError } from "../check/domain-error.js";
import { requireAtLeast } from "../check/require.js";
import type { Airflow, Count, Percent } from "../units/quantity.js";
import type { BalanceOutlet } from "./outlet.js";

/** What is known of when and how well the outlets were read. */
export interface ReadingOrder {
  /** Names of the outlets whose reading is older than the last change of a damper or the fan anywhere in the system. */
  readonly old: readonly string[];
  /**
   * Airflow of each outlet in the last round, by name: when all were read with no change in between. Where a name is
   * missing nothing is foreseen of its outlet, and it is asked for.
   */
  readonly round: Readonly<Record<string, Airflow>>;
  /** Names of the outlets that were set since that round. */
  readonly set: readonly string[];
  /** How many readings stand behind each airflow, by name; 1 where nothing is said. */
  readonly counts: Readonly<Record<string, Count>>;
  /** How often a damper or the fan was set so far; 0 where nobody counts. */
  readonly changeCount: Count;
  /** Relative standard deviation of one reading; 0 where readings are taken as they are. */
  readonly repeatPercent: Percent;
}

/** Every reading is from after the last change, and taken as it is. */
export const FRESH_READINGS: ReadingOrder = {
  old: [],
  round: {},
  set: [],
  counts: {},
  changeCount: 0,
  repeatPercent: 0,
};

/** Refuses an order that speaks of no outlet of the list, or a repeatability below 0. */
export function requireOrder(order: ReadingOrder, outlets: readonly BalanceOutlet[]): void {
  requireAtLeast("repeatPercent", order.repeatPercent, 0);
  const names = new Set(outlets.map(({ name }) => name));
  const unknown = [...order.old, ...order.set].find((name) => !names.has(name));
  if (unknown !== undefined) throw new DomainError("order", "of outlets in the list", unknown);
}
