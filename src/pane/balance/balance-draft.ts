import type { OutletRow } from "../../workbook/index.js";

/** What the pane remembers of balancing: the sheet has no place for it. */
export interface BalanceDraft {
  /** The group in view; "" is the first. */
  readonly group: string;
  /** Readings being typed. */
  readonly typed: string;
  /** The outlet that the person chose to read instead of the advised one, by its id; "" is none. */
  readonly chosen: string;
  /** Outlets to be read again before the advice goes on, by their ids. */
  readonly rereads: readonly string[];
  /** Outlets whose damper somebody has throttled, by `rememberedKey`. */
  readonly throttled: readonly string[];
  readonly throttledBranches: readonly string[];
  /** The most that the fan of a group can give, as typed, by group. */
  readonly fanMost: Readonly<Record<string, string>>;
  /** The airflow of each outlet before anything was first set, there or elsewhere in its system, by `rememberedKey`. */
  readonly asFound: Readonly<Record<string, number>>;
}

export type BalanceAction =
  | { readonly type: "group chosen"; readonly group: string }
  | { readonly type: "typed"; readonly text: string }
  | { readonly type: "outlet chosen"; readonly id: string }
  | { readonly type: "read"; readonly id: string }
  | { readonly type: "found"; readonly key: string; readonly airflow: number | null }
  | { readonly type: "adjusted"; readonly key: string; readonly rereads: readonly string[] }
  | { readonly type: "damper"; readonly key: string; readonly isThrottled: boolean }
  | { readonly type: "branch damper"; readonly key: string; readonly isThrottled: boolean }
  | { readonly type: "read again"; readonly ids: readonly string[] }
  | { readonly type: "fan most"; readonly group: string; readonly text: string };

export const EMPTY_BALANCE: BalanceDraft = {
  group: "",
  typed: "",
  chosen: "",
  rereads: [],
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

export function balanceReducer(draft: BalanceDraft, action: BalanceAction): BalanceDraft {
  switch (action.type) {
    case "group chosen":
      return { ...draft, group: action.group, chosen: "", rereads: [], typed: "" };
    case "typed":
      return { ...draft, typed: action.text };
    case "outlet chosen":
      return { ...draft, chosen: action.id, typed: "" };
    case "read":
      return { ...draft, typed: "", chosen: "", rereads: draft.rereads.filter((id) => id !== action.id) };
    case "found": {
      const { key, airflow } = action;
      const isFirst = airflow !== null && !Object.hasOwn(draft.asFound, key);
      return isFirst ? { ...draft, asFound: { ...draft.asFound, [key]: airflow } } : draft;
    }
    case "adjusted":
      return { ...draft, rereads: action.rereads, throttled: changed(draft.throttled, action.key, true) };
    case "damper":
      return { ...draft, throttled: changed(draft.throttled, action.key, action.isThrottled) };
    case "branch damper":
      return { ...draft, throttledBranches: changed(draft.throttledBranches, action.key, action.isThrottled) };
    case "read again":
      return { ...draft, rereads: action.ids, chosen: "", typed: "" };
    case "fan most":
      return { ...draft, fanMost: { ...draft.fanMost, [action.group]: action.text } };
  }
}
