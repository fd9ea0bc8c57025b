import type { Model } from "@odoo/o-spreadsheet";
import type { WorkbookConversion } from "../../engine/index.js";
import type { PageMessages } from "./messages.js";

/** What the engine says of an entry that it refuses, in its own words. */
const REFUSED = /violates the data validation rule/;

function joined({ title, text }: { readonly title: string; readonly text: string }): string {
  return [title, text].filter((part) => part !== "").join(": ");
}

/**
 * Shows what the file says about an entry while its cell is selected, and says it in the file's words when an entry is
 * refused; returns how to stop.
 */
export function showEntryWords(
  model: Model,
  words: () => WorkbookConversion["words"],
  element: HTMLElement,
  messages: PageMessages,
): () => void {
  const owner = {};
  const current = () => {
    const place = model.getters.getActivePosition();
    const rule = model.getters.getValidationRuleForCell(place);
    return rule === undefined ? undefined : words()[place.sheetId]?.[rule.id];
  };
  const show = (): void => {
    const found = current();
    const text = found === undefined ? "" : joined(found.prompt);
    if (element.textContent !== text) element.textContent = text;
  };
  messages.rewordErrors((text) => {
    const refusal = REFUSED.test(text) ? current()?.refusal : undefined;
    return refusal === undefined || refusal.text === "" ? text : joined(refusal);
  });
  model.on("update", owner, show);
  show();
  return () => {
    model.off("update", owner);
    messages.rewordErrors((text) => text);
    element.textContent = "";
  };
}
