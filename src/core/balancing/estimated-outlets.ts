import type { Airflow, Ratio } from "../units/quantity.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets } from "./outlet.js";
import type { ReadingOrder } from "./reading-order.js";

/** An outlet with what it most likely gets now. */
export interface EstimatedOutlet extends MeasuredOutlet {
  /** Read since the last change: the airflow is a reading. */
  readonly isFresh: boolean;
  /** Set since the last round. */
  readonly isSet: boolean;
}

/** A branch as it most likely stands now. */
export interface EstimatedBranch {
  readonly name: string;
  readonly outlets: readonly EstimatedOutlet[];
  /** By how much untouched outlets changed since the last round; undefined where none of them was read again. */
  readonly riseRatio: Ratio | undefined;
  /** What all of them took in the last round; undefined where that is not known of each. */
  readonly roundFlow: Airflow | undefined;
  /** Names of the outlets of which nothing can be foreseen: old, and no reading of the last round beside them. */
  readonly unknown: readonly string[];
}

/**
 * Foresees what the outlets of one branch get now, from those that were read since the last change.
 *
 * Untouched: Q = Q_round · f, f = ΣQ / ΣQ_round over those of them that were read again; set: as it was set
 *
 * Untouched outlets of a branch keep their proportion to each other, whatever is changed elsewhere. While none of them
 * was read again f is taken as 1: the proportion still tells which of them is to be set.
 *
 * @param name - Name of the branch
 * @param members - Its outlets, all read at some time
 * @param order - When they were read
 * @returns The outlets, each with a reading or a foreseen airflow
 * @source Derived: outlets of one branch keep their proportion when everything upstream changes
 * @example
 * estimatedBranch("", [
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 99, damper: "open" },
 * ], { ...FRESH_READINGS, old: ["Hall"], round: { Hall: 140, Bath: 96 } }).riseRatio // => 1.03125
 */
export function estimatedBranch(name: string, members: readonly BalanceOutlet[], order: ReadingOrder): EstimatedBranch {
  const isOld = (outlet: BalanceOutlet) => order.old.includes(outlet.name);
  const isSet = (outlet: BalanceOutlet) => order.set.includes(outlet.name);
  const roundOf = (outlet: BalanceOutlet) => order.round[outlet.name];
  const measured = measuredOutlets(members);
  const again = measured.filter((outlet) => !isOld(outlet) && !isSet(outlet) && (roundOf(outlet) ?? 0) > 0);
  const now = again.reduce((sum, { measuredFlow }) => sum + measuredFlow, 0);
  const then = again.reduce((sum, outlet) => sum + (roundOf(outlet) ?? 0), 0);
  const riseRatio = now > 0 ? now / then : undefined;
  const outlets = measured.map((outlet): EstimatedOutlet => {
    const state = { isFresh: !isOld(outlet), isSet: isSet(outlet) };
    const atRound = roundOf(outlet);
    if (state.isFresh || state.isSet || atRound === undefined) return { ...outlet, ...state };
    const measuredFlow = atRound * (riseRatio ?? 1);
    return { ...outlet, ...state, measuredFlow, ratio: measuredFlow / outlet.designFlow };
  });
  const unknown = measured.filter((outlet) => isOld(outlet) && !isSet(outlet) && roundOf(outlet) === undefined);
  const rounds = measured.flatMap((outlet) => roundOf(outlet) ?? []);
  const roundFlow = rounds.length === measured.length ? rounds.reduce((sum, flow) => sum + flow, 0) : undefined;
  return { name, outlets, riseRatio, roundFlow, unknown: unknown.map((outlet) => outlet.name) };
}
