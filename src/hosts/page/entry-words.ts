import type { Model } from "@odoo/o-spreadsheet";
import type { WorkbookConversion } from "../../engine/index.js";
import type { EntryPlace } from "./grid/entry-store.js";

type Words = WorkbookConversion["words"];

function joined({ title, text }: { readonly title: string; readonly text: string }): string {
  return [title, text].filter((part) => part !== "").join(": ");
}

/** What the file says of an entry that breaks the rule of a cell; a rule without words of its own gets ours. */
export function refusalWords({ getters }: Model, words: Words, place: EntryPlace): string {
  const rule = getters.getValidationRuleForCell(place);
  const refusal = rule === undefined ? undefined : words[place.sheetId]?.[rule.id]?.refusal;
  if (refusal !== undefined && refusal.text !== "") return joined(refusal);
  if (rule?.criterion.type === "isValueInList") return `Choose one of: ${rule.criterion.values.join(", ")}.`;
  if (rule?.criterion.type === "isValueInRange") return "Choose an entry of the list in this cell.";
  return "The rule of this cell does not take this entry.";
}

/** Shows what the file says about an entry while its cell is selected; returns how to stop. */
export function showEntryWords(model: Model, words: () => Words, element: HTMLElement): () => void {
  const owner = {};
  const show = (): void => {
    const place = model.getters.getActivePosition();
    const rule = model.getters.getValidationRuleForCell(place);
    const found = rule === undefined ? undefined : words()[place.sheetId]?.[rule.id];
    const text = found === undefined ? "" : joined(found.prompt);
    if (element.textContent !== text) element.textContent = text;
  };
  model.on("update", owner, show);
  show();
  return () => {
    model.off("update", owner);
    element.textContent = "";
  };
}
