import type { BalanceStep } from "../../core/index.js";
import type { BalanceGroup, JobDetails, OutletRow } from "../../workbook/index.js";
import type { BalanceDraft } from "./balance-draft.js";
import { meterVelocity } from "./meter-velocity.js";
import { airflowText, percentText } from "./quantity-text.js";
import type { SystemAdvice } from "./system-advice.js";

/** A step that is done at a damper or a fan and not at one outlet: afterwards everything is read again. */
export interface StepToConfirm {
  readonly label: string;
  /** The branch whose damper is then throttled; null for the fan. */
  readonly branch: string | null;
}

/** What the pane asks for now. */
export interface NextStep {
  readonly title: string;
  /** Why, in sentences. */
  readonly words: string;
  /** The outlet to read; null where there is none. */
  readonly read: OutletRow | null;
  /** The outlet is read because it was set, because another was, or because the person chose it. */
  readonly reason: "advised" | "again" | "chosen";
  /** The airflow at which to stop, in the job's unit; null where nothing is to be set at the outlet. */
  readonly target: number | null;
  /** The velocity to look for on the meter: that of the target, or of the design airflow; null without a size. */
  readonly look: number | null;
  readonly confirm: StepToConfirm | null;
  /** A further reading is averaged with those that the sheet has, and does not replace them. */
  readonly isAverage: boolean;
}

/** Whether something was set since the outlet was read last: its readings up to now are then those as found. */
export function isAfterSetting({ reason, target }: NextStep): boolean {
  return reason === "again" || target !== null;
}

type Units = JobDetails["units"];

/** The first of several is asked for; the others come after it. */
function thenMore(outlets: readonly string[]): string {
  return outlets.length === 1 ? "" : `, then ${outlets.length - 1} more`;
}

function titleOf(step: BalanceStep, units: Units): string {
  switch (step.kind) {
    case "measure":
      return `Read ${step.outlets[0]}${thenMore(step.outlets)}`;
    case "find blockage":
      return `No air at ${step.outlets.join(", ")}`;
    case "set outlet":
      return `Set ${step.outlet} to ${airflowText(step.targetFlow, units)}`;
    case "set branch":
      return `Set branch ${step.branch} to a total of ${airflowText(step.targetFlow, units)}`;
    case "set fan":
      return `Set the fan for a total of ${airflowText(step.targetFlow, units)}`;
    case "read again":
      return `Read ${step.outlets[0]} again${thenMore(step.outlets)}`;
    case "noise floor":
      return "As fine as readings allow";
    case "report shortfall":
      return `The fan gives no more than ${percentText(step.ratio)}`;
    case "done":
      return "Balanced";
  }
}

function confirmOf(step: BalanceStep): StepToConfirm | null {
  if (step.kind === "set branch") return { label: `Branch ${step.branch} is set`, branch: step.branch };
  if (step.kind === "set fan") return { label: "The fan is set", branch: null };
  return null;
}

function advisedOutlet(step: BalanceStep, { outlets }: BalanceGroup): OutletRow | null {
  const named = (name: string | undefined) => outlets.find((outlet) => outlet.name === name) ?? null;
  if (step.kind === "set outlet") return named(step.outlet);
  if (step.kind === "measure" || step.kind === "find blockage" || step.kind === "read again") {
    return named(step.outlets[0]);
  }
  return null;
}

/** Returns what to ask for: the outlet that the person chose, else what the advice says. */
export function nextStep(group: BalanceGroup, system: SystemAdvice, draft: BalanceDraft, units: Units): NextStep {
  const { step, reason } = system.advice;
  const chosen = [...group.outlets, ...group.withoutDesign].find(({ id }) => id === draft.chosen);
  const designLook = ({ design, freeArea }: OutletRow) =>
    design === null ? null : meterVelocity(design, freeArea, units);
  if (chosen !== undefined) {
    return {
      title: `Read ${chosen.name}`,
      words: "",
      read: chosen,
      reason: "chosen",
      target: null,
      look: designLook(chosen),
      confirm: null,
      isAverage: false,
    };
  }
  const read = advisedOutlet(step, group);
  const target = step.kind === "set outlet" ? step.targetFlow : null;
  const look = read === null ? null : target === null ? designLook(read) : meterVelocity(target, read.freeArea, units);
  return {
    title: titleOf(step, units),
    words: reason,
    read,
    reason: step.kind === "read again" ? "again" : "advised",
    target,
    look,
    confirm: confirmOf(step),
    isAverage: step.kind === "read again" && step.purpose === "average",
  };
}
