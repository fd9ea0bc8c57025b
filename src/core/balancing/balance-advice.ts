import { type DesignLimits, limitRatios } from "../design/design-limits.js";
import { designVerdict } from "../design/design-verdict.js";
import type { Airflow, Count, Percent, Ratio } from "../units/quantity.js";
import { branchesOf } from "./branches-of.js";
import { commonRatio } from "./common-ratio.js";
import { type EstimatedBranch, type EstimatedOutlet, estimatedBranch } from "./estimated-outlets.js";
import { fanTarget } from "./fan-target.js";
import { assumedStiffness, foreseenRise } from "./foreseen-rise.js";
import { keyOutlet } from "./key-outlet.js";
import { type LowOutlet, lowOutlets } from "./low-outlets.js";
import { type MatchWindow, matchWindow } from "./match-window.js";
import { matchedBranch, nextSetting } from "./next-setting.js";
import { type BalanceOutlet, type MeasuredOutlet, measuredOutlets, requireOutlets } from "./outlet.js";
import { airflowWords as figureAlone, percentWords } from "./percent-words.js";
import { type ReadingOrder, requireOrder } from "./reading-order.js";

/** A system as it stands. */
export interface BalanceSystem {
  readonly outlets: readonly BalanceOutlet[];
  /** Names of the branches whose own damper somebody has throttled. */
  readonly throttledBranches: readonly string[];
  /** Maximum fan airflow; Infinity where nobody knows. */
  readonly fanMaximumFlow: Airflow;
  readonly limits: DesignLimits;
  /**
   * Says an airflow in the words: every step is a matter of ratios, so that airflows may be in either unit. Without it the
   * figure stands alone.
   */
  readonly airflowWords?: (airflow: Airflow) => string;
  /** When the outlets were read, and how well a reading repeats. */
  readonly order: ReadingOrder;
}

/** What to do next. */
export type BalanceStep =
  | { readonly kind: "measure"; readonly outlets: readonly string[] }
  /** "key": to match others to it; "verify": before anything is called done; "average": too near a limit to tell. */
  | {
      readonly kind: "read again";
      readonly outlets: readonly string[];
      readonly purpose: "key" | "verify" | "average";
    }
  | { readonly kind: "find blockage"; readonly outlets: readonly string[] }
  | { readonly kind: "set outlet"; readonly outlet: string; readonly branch: string; readonly targetFlow: Airflow }
  | {
      readonly kind: "set branch";
      readonly branch: string;
      readonly targetFlow: Airflow;
      /** The outlet to read while the damper of the branch is turned, and what it then shows. */
      readonly watched: string;
      readonly watchedFlow: Airflow;
    }
  | {
      readonly kind: "set fan";
      readonly targetFlow: Airflow;
      readonly watched: string;
      readonly watchedFlow: Airflow;
    }
  | { readonly kind: "report shortfall"; readonly ratio: Ratio }
  /** Outside limits by less than readings repeat, however often they were read: no damper can be set finer. */
  | { readonly kind: "noise floor"; readonly outlets: readonly string[] }
  | { readonly kind: "done" };

/** The step, why, and which outlets their own damper cannot raise. */
export interface BalanceAdvice {
  readonly step: BalanceStep;
  /** The step in sentences for the sheet. */
  readonly words: string;
  /** The same without what to do, for somebody who is told that already. */
  readonly reason: string;
  readonly low: readonly LowOutlet[];
  /** How many readings to average each time: scattering ones need more to be told apart at these limits. */
  readonly readingsEach: Count;
}

interface Told {
  readonly step: BalanceStep;
  /** What to do; then why, and what comes after it. */
  readonly action: string;
  readonly reason: string;
}

/** So many times over an outlet near a limit is read, and the average taken, before it is left as it is. */
const MOST_AVERAGED = 4;

/** So many standard deviations from a limit an outlet is near it: beyond, and on this side. */
const BEYOND = 2.5;
const INSIDE = 1;

/** Averaged as often as it is, an outlet is set only where it lies so many standard deviations outside. */
const STILL_BEYOND = 1;

/** After so many changes for each outlet something else moves the air, or one damper moves it all. */
const MOST_CHANGES = 8;

/** No move rests on old readings then: all are read, and what they show is the end. */
function isEndOfChanges({ outlets, order }: BalanceSystem): boolean {
  return order.changeCount > MOST_CHANGES * outlets.length;
}

/**
 * Advises the next step of balancing a system in proportion.
 *
 * Read all; in each branch every outlet to its key; every branch to the key branch; the fan; read all again
 *
 * Moves rest on readings since the last change, or on the proportion that untouched outlets of a branch keep. "Done" is
 * said only when every outlet was read since the last change. Stops as well when only the fan or the design can raise
 * what is missing, where an outlet is outside its limits by less than its readings repeat, and after eight changes an
 * outlet, where somebody counts them.
 *
 * @param system - Outlets as read last and when, throttled branches, the fan's maximum and the limits
 * @returns The next step, the same in words, and the low outlets with what can raise each
 * @throws {DomainError} When there is no outlet, an airflow or a limit is out of range, or the order names no outlet
 * @source Proportional (ratio) balancing, common practice; branches from the highest ratio, from memory, unverified
 * @example
 * balanceAdvice({
 *   outlets: [
 *     { name: "Hall", branch: "", designFlow: 100, measuredFlow: 140, damper: "open" },
 *     { name: "Bath", branch: "", designFlow: 120, measuredFlow: 96, damper: "open" },
 *   ],
 *   throttledBranches: [],
 *   fanMaximumFlow: Infinity,
 *   limits: { minusPercent: 5, plusPercent: 10 },
 *   airflowWords: (airflow) => `${airflow.toFixed(0)} cfm`,
 *   order: FRESH_READINGS,
 * }).step // => { kind: "set outlet", outlet: "Hall", branch: "", targetFlow: 88.494 }
 */
export function balanceAdvice(system: BalanceSystem): BalanceAdvice {
  requireOutlets(system.outlets);
  requireOrder(system.order, system.outlets);
  const { order, limits } = system;
  const isFresh = order.old.length === 0;
  const readingsEach = readingsNeeded(limits, order.repeatPercent);
  // What its own damper cannot raise is told from readings that belong together.
  const low = isFresh ? lowOutlets(system.outlets, limits.minusPercent, system.fanMaximumFlow) : [];
  const told = adviseReading(system) ?? (isFresh ? adviseFresh(system, readingsEach) : adviseOld(system, readingsEach));
  const suspects = low.filter((one) => one.reason === "duct" && told.step.kind !== "find blockage");
  const first = suspects.map(({ outlet, words }) => `${outlet.name} has ${percentWords(outlet.ratio)}: ${words}. `);
  const isReading = ["measure", "read again", "set outlet"].includes(told.step.kind);
  const last = isReading && readingsEach > 1 ? ` Take the average of ${readingsEach} readings each time.` : "";
  const [lead, reason] = [first.join(""), told.reason + last];
  return { step: told.step, words: `${lead}${told.action} ${reason}`.trim(), reason: lead + reason, low, readingsEach };
}

/** Readings to average so that eight standard deviations of the average fit between the limits; four at most. */
function readingsNeeded(limits: DesignLimits, repeatPercent: Percent): Count {
  const { lowRatio, highRatio } = limitRatios(limits);
  const needed = ((8 * repeatPercent) / 100 / Math.log(highRatio / lowRatio)) ** 2;
  return Math.min(MOST_AVERAGED, Math.max(1, Math.ceil(needed - 1e-9)));
}

function adviseReading({ outlets }: BalanceSystem): Told | undefined {
  const { notMeasured } = commonRatio(outlets);
  if (notMeasured.length === 0) return undefined;
  const none = notMeasured.length === 1 ? "It has no reading. " : "";
  // Most are read: what is left may be out of reach.
  const isRest = notMeasured.length < outlets.length / 2;
  const rest = isRest ? "Where nobody can read it, take its row out of the balance and report it." : "";
  return {
    step: { kind: "measure", outlets: notMeasured },
    action: `Read ${notMeasured.join(", ")} first.`,
    reason: (none + rest).trim(),
  };
}

/** With every reading from after the last change: done, undecided, or a move. */
function adviseFresh(system: BalanceSystem, readingsEach: Count): Told {
  const { outlets, limits, order } = system;
  const { lowRatio, highRatio } = limitRatios(limits);
  const measured = measuredOutlets(outlets);
  const countOf = ({ name }: MeasuredOutlet) => order.counts[name] ?? 1;
  const reachOf = (outlet: MeasuredOutlet) => order.repeatPercent / 100 / Math.sqrt(countOf(outlet));
  const isWithin = ({ measuredFlow, designFlow }: MeasuredOutlet) =>
    designVerdict(measuredFlow, designFlow, limits.minusPercent, limits.plusPercent) === "within";
  const isBetween = ({ ratio }: MeasuredOutlet, reach: number) =>
    ratio >= lowRatio * (1 - reach) && ratio <= highRatio * (1 + reach);
  const outside = measured.filter((outlet) => !isWithin(outlet));
  const near = measured.filter((outlet) => !isWithin(outlet) || !isBetween(outlet, -INSIDE * reachOf(outlet)));
  const isAveraged = (outlet: MeasuredOutlet) => countOf(outlet) >= MOST_AVERAGED * readingsEach;
  const isNothingToSet = outside.every((outlet) => {
    return isBetween(outlet, (isAveraged(outlet) ? STILL_BEYOND : BEYOND) * reachOf(outlet));
  });
  if (isNothingToSet) {
    const again = near.filter((outlet) => !isAveraged(outlet));
    if (order.repeatPercent > 0 && again.length > 0) return adviseAverage(again, MOST_AVERAGED * readingsEach);
    if (outside.length > 0)
      return stop(outside, "outside limits by less than readings repeat. No damper can be set finer");
    const reason = "Every outlet is within limits, read since the last change. Mark the damper settings.";
    return { step: { kind: "done" }, action: "", reason };
  }
  if (isEndOfChanges(system)) {
    return stop(outside, `still outside limits after ${order.changeCount} changes. Look for what else moves the air`);
  }
  return adviseMove(system, readingsEach);
}

/** Nobody turns a damper for a difference that the next reading may take away. */
function adviseAverage(near: readonly MeasuredOutlet[], most: Count): Told {
  const names = near.map(({ name }) => name);
  return readAgain(names, "average", `Use the average of all readings, ${most} at most: too near a limit to tell.`);
}

function stop(outside: readonly MeasuredOutlet[], why: string): Told {
  const shown = outside.map(({ name, ratio }) => `${name} (${percentWords(ratio)})`).join(", ");
  return {
    step: { kind: "noise floor", outlets: outside.map(({ name }) => name) },
    action: "Stop here.",
    reason: `${shown}: ${why}.`,
  };
}

/** With readings from before the last change: a move that they still tell, or the readings that end the job. */
function adviseOld(system: BalanceSystem, readingsEach: Count): Told {
  const { old, changeCount } = system.order;
  if (!isEndOfChanges(system)) return adviseMove(system, readingsEach);
  return readAgain(old, "verify", `After ${changeCount} changes only new readings count.`);
}

/** The next damper or fan to set, or what has to be read before anybody can say. */
function adviseMove(system: BalanceSystem, readingsEach: Count): Told {
  const members = branchesOf(system.outlets);
  const repeatPercent = system.order.repeatPercent / Math.sqrt(readingsEach);
  const window = matchWindow(system.limits, members.length, repeatPercent);
  const branches = members.map(({ name, outlets }) => estimatedBranch(name, outlets, system.order));
  return (
    adviseBlockage(branches) ??
    adviseOutlet(branches, window, system) ??
    adviseKeys(branches) ??
    adviseBranch(branches, window, system) ??
    adviseFan(branches, window, system)
  );
}

/** An outlet without air can be nobody's key. */
function adviseBlockage(branches: readonly EstimatedBranch[]): Told | undefined {
  const dead = branches.flatMap(({ outlets }) => outlets.filter(({ ratio }) => ratio <= 0)).map(({ name }) => name);
  if (dead.length === 0) return undefined;
  const isEverywhere = branches.every(({ outlets }) => outlets.every(({ ratio }) => ratio <= 0));
  const who =
    dead.length === 1 ? `${dead[0]} gets no air or reverse flow` : `${dead.join(", ")} get no air or reverse flow`;
  return {
    step: { kind: "find blockage", outlets: dead },
    action: isEverywhere ? "No outlet gets any air." : `${who}.`,
    reason: isEverywhere
      ? "Look whether the fan runs, the right way round, and whether a main damper is closed."
      : "Look for a closed damper or an open duct.",
  };
}

type Purpose = Extract<BalanceStep, { kind: "read again" }>["purpose"];

function readAgain(names: readonly string[], purpose: Purpose, reason: string): Told {
  return { step: { kind: "read again", outlets: names, purpose }, action: `Read again: ${names.join(", ")}.`, reason };
}

/** Branches from the one that gets most, so that its surplus reaches the others early. */
function adviseOutlet(
  branches: readonly EstimatedBranch[],
  { outletRatio }: MatchWindow,
  { airflowWords = figureAlone }: BalanceSystem,
): Told | undefined {
  const highestFirst = [...branches].sort((one, other) => ratioOf(other.outlets) - ratioOf(one.outlets));
  for (const branch of highestFirst) {
    if (branch.unknown.length > 0) {
      return readAgain(branch.unknown, "key", "A damper was set since they were read.");
    }
    const next = nextSetting(branch, outletRatio, null);
    if (!next) continue;
    const { outlet, key, targetFlow, targetRatio } = next;
    if (!key.isFresh) {
      return readAgain([key.name], "key", `It is the key outlet: others are matched to it.`);
    }
    return {
      step: { kind: "set outlet", outlet: outlet.name, branch: branch.name, targetFlow },
      action: `Set ${outlet.name} to ${airflowWords(targetFlow)}:`,
      reason: `${percentWords(targetRatio)} of design, to match key outlet ${key.name}; leave ${key.name} fully open. Then read ${outlet.name} and ${key.name} again.`,
    };
  }
  return undefined;
}

/** Branches are compared by their keys: each has to be read since the last change. */
function adviseKeys(branches: readonly EstimatedBranch[]): Told | undefined {
  const old = branches
    .filter(({ outlets, riseRatio }) => riseRatio === undefined && outlets.some(({ isFresh }) => !isFresh))
    .flatMap((branch) => keyOutlet(branch.outlets.filter(({ isSet }) => !isSet))?.name ?? []);
  if (old.length === 0) return undefined;
  return readAgain(old, "key", "Each sets the level of its branch.");
}

/** A branch as one outlet: the middle of its ratios. */
interface BranchLevel {
  readonly name: string;
  readonly key: EstimatedOutlet;
  readonly ratio: Ratio;
  readonly lowestRatio: Ratio;
  readonly highestRatio: Ratio;
  /** What its outlets take together: its ratio to the design is not the middle where a large outlet lies at one end. */
  readonly totalFlow: Airflow;
  readonly designFlow: Airflow;
}

function levelsOf(branches: readonly EstimatedBranch[], window: MatchWindow): readonly BranchLevel[] {
  return branches.flatMap((branch) => {
    const matched = matchedBranch(branch, window.outletRatio);
    if (matched === undefined) return [];
    const ratios = matched.outlets.map(({ ratio }) => ratio);
    const [lowestRatio, highestRatio] = [Math.min(...ratios), Math.max(...ratios)];
    const { measuredFlow: totalFlow, designFlow } = commonRatio(matched.outlets);
    const ratio = Math.sqrt(lowestRatio * highestRatio);
    return [{ name: branch.name, key: matched.key, ratio, lowestRatio, highestRatio, totalFlow, designFlow }];
  });
}

/** The same rule between branches, each taken as one outlet. */
function adviseBranch(
  branches: readonly EstimatedBranch[],
  window: MatchWindow,
  { throttledBranches, airflowWords = figureAlone }: BalanceSystem,
): Told | undefined {
  const levels = levelsOf(branches, window);
  const highest = Math.max(...levels.map(({ highestRatio }) => highestRatio));
  const lowest = Math.min(...levels.map(({ lowestRatio }) => lowestRatio));
  if (levels.length < 2 || highest <= lowest * window.systemRatio) return undefined;
  const open = levels.filter(({ name }) => !throttledBranches.includes(name));
  const key = (open.length > 0 ? open : levels).reduce((least, one) => (one.ratio < least.ratio ? one : least));
  const apart = Math.sqrt(window.systemRatio / window.outletRatio);
  const [branch] = levels
    .filter((one) => one !== key)
    .filter((one) => one.ratio > key.ratio * apart || (one.ratio < key.ratio / apart && !open.includes(one)))
    .sort((one, other) => one.ratio - other.ratio);
  if (branch === undefined) return undefined;
  const total = levels.reduce((sum, { totalFlow }) => sum + totalFlow, 0);
  const shared = 1 - ((1 - key.ratio / branch.ratio) * branch.totalFlow) / total;
  const stiffness = assumedStiffness(open.includes(branch), branch.ratio < key.ratio);
  // The damper moves all outlets of the branch alike: its total and the outlet to watch change by one factor.
  const change = (key.ratio / branch.ratio) * foreseenRise(shared, stiffness);
  const targetFlow = branch.totalFlow * change;
  const watchedFlow = branch.key.measuredFlow * change;
  const watched = branch.key.name;
  return {
    step: { kind: "set branch", branch: branch.name, targetFlow, watched, watchedFlow },
    action: `Set branch ${branch.name} to a total of ${airflowWords(targetFlow)}:`,
    reason: `${percentWords(targetFlow / branch.designFlow)} of design, to match key branch ${key.name}. ${watched} then reads ${airflowWords(watchedFlow)}. Then read ${watched} and ${key.key.name} again.`,
  };
}

function adviseFan(branches: readonly EstimatedBranch[], window: MatchWindow, system: BalanceSystem): Told {
  const { limits, fanMaximumFlow, airflowWords = figureAlone, order } = system;
  const placed = branches.flatMap((branch) => matchedBranch(branch, window.outletRatio)?.outlets ?? branch.outlets);
  const targetFlow = fanTarget(placed, limits);
  const { measuredFlow, designFlow } = commonRatio(placed);
  const ratio = measuredFlow / designFlow;
  const verify = () => readAgain(order.old, "verify", "They were read before the last change.");
  const isWithin = placed.every((one) => {
    return designVerdict(one.measuredFlow, one.designFlow, limits.minusPercent, limits.plusPercent) === "within";
  });
  if (order.old.length > 0 && isWithin) return verify();
  const lead = `All outlets share in proportion at ${percentWords(ratio)} of design.`;
  if (targetFlow > measuredFlow && measuredFlow >= fanMaximumFlow * (1 - SHORT_RATIO)) {
    if (order.old.length > 0) return verify();
    return {
      step: { kind: "report shortfall", ratio },
      action: "The fan gives no more.",
      reason: `${lead} Report the shortfall.`,
    };
  }
  const setFlow = Math.min(targetFlow, fanMaximumFlow);
  const caution = setFlow > measuredFlow ? " Check the motor current before speeding a fan up." : "";
  const watched = watchedOutlet(placed);
  const watchedFlow = (watched.measuredFlow * setFlow) / measuredFlow;
  return {
    step: { kind: "set fan", targetFlow: setFlow, watched: watched.name, watchedFlow },
    action: `Set the fan for a total of ${airflowWords(setFlow)}.`,
    reason: `${lead} ${watched.name} then reads ${airflowWords(watchedFlow)}. Then read every outlet again.${caution}`,
  };
}

/** The largest outlet that was read since the last change: it tells the total best. */
function watchedOutlet(outlets: readonly EstimatedOutlet[]): EstimatedOutlet {
  const fresh = outlets.filter(({ isFresh }) => isFresh);
  const [first, ...rest] = fresh.length > 0 ? fresh : outlets;
  return rest.reduce((most, one) => (one.designFlow > most.designFlow ? one : most), first as EstimatedOutlet);
}

/** A fan this near to its maximum gives no more that anybody could read. */
const SHORT_RATIO = 0.02;

function ratioOf(outlets: readonly EstimatedOutlet[]): Ratio {
  return commonRatio(outlets).ratio ?? 0;
}
