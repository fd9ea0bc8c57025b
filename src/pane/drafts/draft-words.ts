import type { KeptDrafts } from "./kept-drafts.js";

/** What a person calls each draft: the tab on which it is typed. */
const TAB_NAMES: Readonly<Record<string, string>> = {
  job: "Start",
  start: "Start",
  measure: "Measure",
  balance: "Balance",
};

/** Names the tabs on which something was typed. */
export function tabsOf(keys: readonly string[]): string {
  return [...new Set(keys.map((key) => TAB_NAMES[key.split(":")[0] ?? ""] ?? key))].join(", ");
}

/** The name of a workbook, without the folders that it lies in. */
export function workbookName(place: string): string {
  const last = place.split(/[\\/]/).at(-1) ?? "";
  try {
    return decodeURIComponent(last) || "a workbook without a name";
  } catch {
    return last; // A name with a percent sign of its own.
  }
}

/** Says when, as the person's system writes it. */
function timeText(atMs: number): string {
  return new Date(atMs).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

/** Says what was typed, where and when: `Measure, Balance: typed in “Job A.xlsx”, Nov 29, 2026, 9:12 AM.` */
export function keptWords({ place, atMs, drafts }: KeptDrafts): string {
  return `${tabsOf(Object.keys(drafts))}: typed in “${workbookName(place)}”, ${timeText(atMs)}.`;
}

/** Says what came of taking drafts over. */
export function takenWords(kept: KeptDrafts, left: readonly string[]): string {
  const taken = Object.keys(kept.drafts).filter((key) => !left.includes(key));
  const stays = left.length === 0 ? "" : ` ${tabsOf(left)} already has entries here, so those stay kept.`;
  return taken.length === 0 ? `Nothing was copied.${stays}` : `Now on ${tabsOf(taken)}.${stays}`;
}
