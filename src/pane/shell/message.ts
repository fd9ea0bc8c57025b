import { HostError } from "../../workbook/index.js";

/** What the pane tells the person about an action. */
export interface Message {
  readonly kind: "done" | "failed";
  readonly text: string;
}

/** A message for what an action threw: a `HostError` speaks for itself, anything else is a fault of ours. */
export function failureMessage(thrown: unknown): Message {
  if (thrown instanceof HostError) return { kind: "failed", text: thrown.message };
  const reason = thrown instanceof Error ? thrown.message : String(thrown);
  return { kind: "failed", text: `Something went wrong that should not: ${reason} What you typed is kept.` };
}

/** What stands above the tabs while something fails that is tried again until it succeeds. */
export function triedAgain(thrown: unknown): string {
  return `${failureMessage(thrown).text} Vanesheet keeps trying.`;
}
