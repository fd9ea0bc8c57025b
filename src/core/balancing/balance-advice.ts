import type { DesignLimits } from "../design/design-limits.js";
import { designVerdict } from "../design/design-verdict.js";
import type { Airflow, Ratio } from "../units/quantity.js";
import { type Branch, branchesOf } from "./branches-of.js";
import { commonRatio } from "./common-ratio.js";
import { fanTarget } from "./fan-target.js";
import { type LowOutlet, lowOutlets } from "./low-outlets.js";
import { matchRatio } from "./match-ratio.js";
import { type NextSetting, nextSetting } from "./next-setting.js";
import { type BalanceOutlet, measuredOutlets, requireOutlets } from "./outlet.js";
import { airflowWords, type FlowUnit, percentWords } from "./percent-words.js";

/** A system as it stands. */
export interface BalanceSystem {
  readonly outlets: readonly BalanceOutlet[];
  /** Names of the branches whose own damper somebody has throttled. */
  readonly throttledBranches: readonly string[];
  /** Maximum fan airflow; Infinity where nobody knows. */
  readonly fanMaximumFlow: Airflow;
  readonly limits: DesignLimits;
  /** Every step is a matter of ratios, so that airflows may be in either unit; the words name this one. */
  readonly flowUnit: FlowUnit;
}

/** What to do next. */
export type BalanceStep =
  | { readonly kind: "measure"; readonly outlets: readonly string[] }
  | { readonly kind: "find blockage"; readonly outlets: readonly string[] }
  | { readonly kind: "set outlet"; readonly outlet: string; readonly branch: string; readonly targetFlow: Airflow }
  | { readonly kind: "set branch"; readonly branch: string; readonly targetFlow: Airflow }
  | { readonly kind: "set fan"; readonly targetFlow: Airflow }
  | { readonly kind: "report shortfall"; readonly ratio: Ratio }
  | { readonly kind: "done" };

/** The step, why, and which outlets their own damper cannot raise. */
export interface BalanceAdvice {
  readonly step: BalanceStep;
  /** The step as a sentence for the sheet. */
  readonly words: string;
  readonly low: readonly LowOutlet[];
}

type Told = Pick<BalanceAdvice, "step" | "words">;

/**
 * Advises the next step of balancing a system in proportion.
 *
 * Read all; in each branch every outlet to the key's ratio; every branch to the key branch's ratio; the fan to ΣD
 *
 * Stops when every outlet is within its limits, or when only the fan or the design can raise what is missing.
 *
 * @param system - Outlets as read last, throttled branches, the fan's maximum and the limits
 * @returns The next step, the same in words, and the low outlets with what can raise each
 * @throws {DomainError} When there is no outlet, or an airflow or a limit is out of range
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
 *   flowUnit: "cfm",
 * }).step // => { kind: "set outlet", outlet: "Hall", branch: "", targetFlow: 80 }
 */
export function balanceAdvice(system: BalanceSystem): BalanceAdvice {
  requireOutlets(system.outlets);
  const matching = matchRatio(system.limits);
  const low = lowOutlets(system.outlets, system.limits.minusPercent, system.fanMaximumFlow);
  const told =
    adviseReading(system) ??
    adviseDone(system) ??
    adviseBlockage(system) ??
    adviseOutlet(system, matching) ??
    adviseBranch(system, matching) ??
    adviseFan(system, matching);
  const suspects = low.filter((one) => one.reason === "duct" && told.step.kind !== "find blockage");
  const first = suspects.map(({ outlet, words }) => `${outlet.name} has ${percentWords(outlet.ratio)}: ${words}. `);
  return { ...told, words: first.join("") + told.words, low };
}

function adviseReading({ outlets }: BalanceSystem): Told | undefined {
  const { notMeasured } = commonRatio(outlets);
  if (notMeasured.length === 0) return undefined;
  const words = `Read ${notMeasured.join(", ")} first: not measured is not zero.`;
  return { step: { kind: "measure", outlets: notMeasured }, words };
}

function adviseDone({ outlets, limits }: BalanceSystem): Told | undefined {
  const isWithin = measuredOutlets(outlets).every(({ measuredFlow, designFlow }) => {
    return designVerdict(measuredFlow, designFlow, limits.minusPercent, limits.plusPercent) === "within";
  });
  if (!isWithin) return undefined;
  return { step: { kind: "done" }, words: "Every outlet is within limits. Mark the damper settings." };
}

/** An outlet without air can be nobody's key. */
function adviseBlockage({ outlets }: BalanceSystem): Told | undefined {
  const dead = measuredOutlets(outlets)
    .filter(({ ratio }) => ratio <= 0)
    .map(({ name }) => name);
  if (dead.length === 0) return undefined;
  const words = `Find out why ${dead.join(", ")} gets no air or draws it backwards: look for a closed damper or an open duct.`;
  return { step: { kind: "find blockage", outlets: dead }, words };
}

/** Branches from the one that gets most, so that its surplus reaches the others early. */
function adviseOutlet({ outlets, flowUnit }: BalanceSystem, matching: Ratio): Told | undefined {
  const highestFirst = [...branchesOf(outlets)].sort((one, other) => ratioOf(other) - ratioOf(one));
  for (const { name, outlets: members } of highestFirst) {
    const next = nextSetting(members, matching);
    if (!next) continue;
    const { outlet, key, targetFlow, targetRatio } = next;
    const words = `Set ${outlet.name} to ${airflowWords(targetFlow, flowUnit)} (${percentWords(targetRatio)} of design, ${likeKey(next)} the key outlet ${key.name}, whose damper stays open). Then read both again.`;
    return { step: { kind: "set outlet", outlet: outlet.name, branch: name, targetFlow }, words };
  }
  return undefined;
}

/** A target beside the key's ratio foresees that the key will follow. */
function likeKey({ targetRatio, key }: NextSetting): string {
  return targetRatio === key.ratio ? "as" : "about where it meets";
}

/** The same rule between branches, each taken as one outlet of its sums. */
function adviseBranch({ outlets, throttledBranches, flowUnit }: BalanceSystem, matching: Ratio): Told | undefined {
  const branches = branchesOf(outlets).map(({ name, outlets: members }): BalanceOutlet => {
    const { designFlow, measuredFlow } = commonRatio(members);
    return {
      name,
      branch: "",
      designFlow,
      measuredFlow,
      damper: throttledBranches.includes(name) ? "throttled" : "open",
    };
  });
  const next = nextSetting(branches, matching);
  if (!next) return undefined;
  const { outlet: branch, key, targetFlow, targetRatio } = next;
  const words = `Set branch ${branch.name} to a total of ${airflowWords(targetFlow, flowUnit)} (${percentWords(targetRatio)} of design, ${likeKey(next)} the key branch ${key.name}, whose damper stays open). Then read both again.`;
  return { step: { kind: "set branch", branch: branch.name, targetFlow }, words };
}

function adviseFan({ outlets, fanMaximumFlow, limits, flowUnit }: BalanceSystem, matching: Ratio): Told {
  const targetFlow = fanTarget(outlets, limits);
  const { measuredFlow, designFlow } = commonRatio(outlets);
  const ratio = measuredFlow / designFlow;
  const lead = `All outlets share in proportion at ${percentWords(ratio)} of design`;
  if (targetFlow > measuredFlow && measuredFlow >= fanMaximumFlow * (1 - matching)) {
    return {
      step: { kind: "report shortfall", ratio },
      words: `${lead}, and the fan gives no more. Report the shortfall.`,
    };
  }
  const setFlow = Math.min(targetFlow, fanMaximumFlow);
  const caution = setFlow > measuredFlow ? " Check the motor current before speeding a fan up." : "";
  const words = `${lead}. Set the fan for a total of ${airflowWords(setFlow, flowUnit)} and read every outlet again.${caution}`;
  return { step: { kind: "set fan", targetFlow: setFlow }, words };
}

function ratioOf(branch: Branch): Ratio {
  return commonRatio(branch.outlets).ratio ?? 0;
}
