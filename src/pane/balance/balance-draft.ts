import type { OutletRow } from "../../workbook/index.js";

/** What the pane remembers of balancing: the sheet has no place for it. */
export interface BalanceDraft {
  /** The group in view; "" is the first. */
  readonly group: string;
  /** Readings being typed. */
  readonly typed: string;
  /** The outlet that the person chose to read instead of the advised one, by its id; "" is none. */
  readonly chosen: string;
  /**
   * The airflow of outlets that were not read since the last change in their system, by `rememberedKey`: a sheet that
   * shows another one was read again there.
   */
  readonly old: Readonly<Record<string, number>>;
  /** Outlets that were set since the last round, in which all of their system were read with no change in between. */
  readonly set: readonly string[];
  /** The airflow of each outlet in that round. */
  readonly round: Readonly<Record<string, number>>;
  /** How many readings were averaged, where it was more than one. */
  readonly counts: Readonly<Record<string, number>>;
  /** How often something was set, by group. */
  readonly changes: Readonly<Record<string, number>>;
  /** Outlets whose damper somebody has throttled, by `rememberedKey`. */
  readonly throttled: readonly string[];
  readonly throttledBranches: readonly string[];
  /** The most that the fan of a group can give, as typed, by group. */
  readonly fanMost: Readonly<Record<string, string>>;
  /** The airflow of each outlet before anything was first set, there or elsewhere in its system, by `rememberedKey`. */
  readonly asFound: Readonly<Record<string, number>>;
}

/** The outlets of a system as they stood before something in it was changed. */
export interface SystemChange {
  readonly group: string;
  /** Airflow of each outlet as the sheet has it, null where none was read, by `rememberedKey`. */
  readonly before: Readonly<Record<string, number | null>>;
}

export type BalanceAction =
  | { readonly type: "group chosen"; readonly group: string }
  | { readonly type: "typed"; readonly text: string }
  | { readonly type: "not entered"; readonly text: string }
  | { readonly type: "outlet chosen"; readonly id: string }
  | { readonly type: "read"; readonly key: string; readonly count: number }
  | { readonly type: "found"; readonly key: string; readonly airflow: number | null }
  | ({ readonly type: "adjusted"; readonly key: string } & SystemChange)
  | { readonly type: "damper"; readonly key: string; readonly isThrottled: boolean }
  | { readonly type: "branch damper"; readonly key: string; readonly isThrottled: boolean }
  | ({ readonly type: "fan set" } & SystemChange)
  | ({ readonly type: "branch set"; readonly key: string } & SystemChange)
  | { readonly type: "fan most"; readonly group: string; readonly text: string };

export const EMPTY_BALANCE: BalanceDraft = {
  group: "",
  typed: "",
  chosen: "",
  old: {},
  set: [],
  round: {},
  counts: {},
  changes: {},
  throttled: [],
  throttledBranches: [],
  fanMost: {},
  asFound: {},
};

/**
 * Under which name an outlet is remembered: it survives sorting the sheet, and another job has other outlets.
 *
 * @param part - The outlet's tag, or a branch
 */
export function rememberedKey({ sheet, system }: Pick<OutletRow, "sheet" | "system">, part: string, jobName: string) {
  return [jobName, sheet, system, part].join("\n");
}

function changed(keys: readonly string[], key: string, isIn: boolean): readonly string[] {
  const others = keys.filter((one) => one !== key);
  return isIn ? [...others, key] : others;
}

/**
 * After a change every reading of the system is old. If all of them belonged together before it, they were a round: the
 * proportions in it are what the next moves rest on.
 */
function afterChange(draft: BalanceDraft, { group, before }: SystemChange): BalanceDraft {
  const keys = Object.keys(before);
  const isRound = keys.every((key) => before[key] !== null && draft.old[key] !== before[key]);
  const own = Object.fromEntries(Object.entries(before).flatMap(([key, flow]) => (flow === null ? [] : [[key, flow]])));
  return {
    ...draft,
    old: { ...draft.old, ...own },
    set: isRound ? draft.set.filter((key) => !keys.includes(key)) : draft.set,
    round: isRound ? { ...draft.round, ...own } : draft.round,
    counts: Object.fromEntries(Object.entries(draft.counts).filter(([key]) => !keys.includes(key))),
    changes: { ...draft.changes, [group]: (draft.changes[group] ?? 0) + 1 },
  };
}

export function balanceReducer(draft: BalanceDraft, action: BalanceAction): BalanceDraft {
  switch (action.type) {
    case "group chosen":
      return { ...draft, group: action.group, chosen: "", typed: "" };
    case "typed":
      return { ...draft, typed: action.text };
    case "not entered":
      return { ...draft, typed: draft.typed === "" ? action.text : draft.typed };
    case "outlet chosen":
      return { ...draft, chosen: action.id, typed: "" };
    case "read": {
      const { key, count } = action;
      const { [key]: _, ...old } = draft.old;
      return { ...draft, chosen: "", old, counts: { ...draft.counts, [key]: count } };
    }
    case "found": {
      const { key, airflow } = action;
      const isFirst = airflow !== null && !Object.hasOwn(draft.asFound, key);
      return isFirst ? { ...draft, asFound: { ...draft.asFound, [key]: airflow } } : draft;
    }
    case "adjusted": {
      const { key } = action;
      const after = afterChange(draft, action);
      // It was read as it was set: its own reading is from after the change.
      const { [key]: _, ...old } = after.old;
      return { ...after, old, set: changed(after.set, key, true), throttled: changed(after.throttled, key, true) };
    }
    case "damper":
      return { ...draft, throttled: changed(draft.throttled, action.key, action.isThrottled) };
    case "branch damper":
      return { ...draft, throttledBranches: changed(draft.throttledBranches, action.key, action.isThrottled) };
    case "fan set":
      return { ...afterChange(draft, action), chosen: "", typed: "" };
    case "branch set": {
      const after = afterChange(draft, action);
      return { ...after, throttledBranches: changed(after.throttledBranches, action.key, true), chosen: "", typed: "" };
    }
    case "fan most":
      return { ...draft, fanMost: { ...draft.fanMost, [action.group]: action.text } };
  }
}
