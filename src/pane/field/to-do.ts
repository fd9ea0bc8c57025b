import type { FieldOutlet } from "../../workbook/index.js";

/** What is still to do at an outlet, in words, and how pressing it is. */
export interface ToDo {
  readonly text: string;
  readonly kind: "open" | "off" | "done";
}

/** Says what is still to do at an outlet. */
export function toDo({ entries, verdict, outlet }: FieldOutlet): ToDo {
  const readings = entries.filter(({ holds }) => holds !== "seconds");
  const taken = readings.filter(({ value }) => value !== null && value !== "").length;
  if (taken === 0 && outlet.measured === null) return { text: "not read", kind: "open" };
  if (verdict === "low" || verdict === "high") return { text: verdict, kind: "off" };
  if (taken < readings.length && taken > 0) return { text: `${taken} of ${readings.length} read`, kind: "open" };
  return { text: verdict === "" ? "read" : verdict, kind: "done" };
}

const DAMPER = /^Damper (.+?)\.(?: (.*))?$/s;

/** A note of the sheet, parted into the damper's position and the rest. */
export function partedNote(note: string): { readonly damper: string; readonly rest: string } {
  const [, damper, rest] = DAMPER.exec(note) ?? [];
  return damper === undefined ? { damper: "", rest: note } : { damper, rest: rest ?? "" };
}

/** Joins the damper's position and the rest to one note of the sheet. */
export function joinedNote(damper: string, rest: string): string {
  const [position, words] = [damper.trim().replace(/\.+$/, ""), rest.trim()];
  if (position === "") return words;
  return `Damper ${position}.${words === "" ? "" : ` ${words}`}`;
}
