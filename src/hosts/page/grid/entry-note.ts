import type { Model } from "@odoo/o-spreadsheet";
import { restoreFocus } from "../restore-focus.js";
import type { EntryPlace } from "./entry-store.js";

/** Something that the person may do about a note. */
export interface NoteAction {
  readonly label: string;
  readonly act: () => void;
}

/** What is said beside a cell while it is selected; nothing stops for it. */
export interface EntryNote {
  show(place: EntryPlace, text: string, action?: NoteAction): void;
  hide(): void;
}

const GAP_PX = 4;

/** Shows notes beside cells in an element; returns how to stop as well. */
export function entryNotes(model: Model, element: HTMLElement): EntryNote & { readonly stop: () => void } {
  let at: EntryPlace | null = null;
  const hide = (): void => {
    at = null;
    element.hidden = true;
    element.replaceChildren();
  };
  const put = (): void => {
    const grid = document.querySelector(".o-grid")?.getBoundingClientRect();
    if (at === null || grid === undefined) return;
    const { col, row } = at;
    const { x, y, height } = model.getters.getVisibleRectWithZoom({ left: col, right: col, top: row, bottom: row });
    const { offsetWidth, offsetHeight } = element;
    const below = grid.y + y + height + GAP_PX;
    const top = below + offsetHeight > innerHeight ? grid.y + y - offsetHeight - GAP_PX : below;
    element.style.left = `${Math.max(GAP_PX, Math.min(grid.x + x, innerWidth - offsetWidth - GAP_PX))}px`;
    element.style.top = `${Math.max(GAP_PX, top)}px`;
  };
  const owner = {};
  const follow = (): void => {
    if (at === null) return;
    const { sheetId, col, row } = model.getters.getActivePosition();
    if (sheetId === at.sheetId && col === at.col && row === at.row) {
      put();
      return;
    }
    hide();
  };
  model.on("update", owner, follow);
  return {
    show(place, text, action) {
      at = place;
      const words = document.createElement("span");
      words.textContent = text;
      element.replaceChildren(words);
      if (action !== undefined) {
        const button = document.createElement("button");
        button.type = "button";
        button.textContent = action.label;
        button.addEventListener("click", () => {
          hide();
          action.act();
          restoreFocus(null);
        });
        element.append(button);
      }
      element.hidden = false;
      put();
    },
    hide,
    stop() {
      model.off("update", owner);
      hide();
    },
  };
}
