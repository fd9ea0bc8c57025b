import { helpers, type Model } from "@odoo/o-spreadsheet";
import type { EntryPlace } from "./grid/entry-store.js";
import type { Messages } from "./messages.js";

const PASTES = new Set(["PASTE", "PASTE_FROM_OS_CLIPBOARD"]);

/** More cells than anybody pastes into a list by hand; a larger block is not gone through. */
const MOST_CELLS = 50_000;
const NAMED = 3;

/** The cells of what was just pasted, which the grid selects, that break their rule. */
function brokenIn({ getters }: Model): readonly EntryPlace[] {
  const sheetId = getters.getActiveSheetId();
  const broken: EntryPlace[] = [];
  let count = 0;
  for (const { left, top, right, bottom } of getters.getSelectedZones()) {
    for (let row = top; row <= bottom; row += 1) {
      for (let col = left; col <= right; col += 1) {
        count += 1;
        if (count > MOST_CELLS) return broken;
        const place = { sheetId, col, row };
        // A rule that only advises lets the same be typed.
        if (getters.isDataValidationInvalid(place) && getters.getValidationRuleForCell(place)?.isBlocking)
          broken.push(place);
      }
    }
  }
  return broken;
}

/** Says which pasted cells break the rule of their cell, which refuses the same when it is typed; returns how to stop. */
export function tellPasted(model: Model, messages: Messages): () => void {
  const owner = {};
  const { getters } = model;
  let isPasted = false;
  const note = ({ type }: { readonly type: string }): void => {
    if (PASTES.has(type)) isPasted = true;
  };
  const tell = (): void => {
    if (!isPasted) return;
    isPasted = false;
    const broken = brokenIn(model);
    if (broken.length === 0) return;
    const named = broken
      .slice(0, NAMED)
      .map((place) => `${helpers.toXC(place.col, place.row)} “${getters.getEvaluatedCell(place).formattedValue}”`);
    const others = broken.length > NAMED ? ` and ${broken.length - NAMED} more` : "";
    const what = broken.length === 1 ? "1 pasted cell does" : `${broken.length} pasted cells do`;
    const text = `${what} not fit: ${named.join(", ")}${others}. A number is a number alone, with a point; a word is one of the list. Type it again, or take the paste back (Ctrl+Z).`;
    messages.notifyUser({ type: "warning", sticky: true, text });
  };
  model.on("command-dispatched", owner, note as never);
  model.on("command-finalized", owner, tell);
  return () => {
    model.off("command-dispatched", owner);
    model.off("command-finalized", owner);
  };
}
