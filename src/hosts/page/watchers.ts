import type { Model } from "@odoo/o-spreadsheet";
import { watchChanges } from "../../engine/index.js";
import { watchSelected } from "./watch-selected.js";

/** Is called with the name of a sheet whose cells changed. */
export type SheetListener = (sheet: string) => void;

/** Who is told of changes, whichever workbook is open. */
export interface Watchers {
  /** Returns how to stop. */
  add(listener: SheetListener): () => void;
  /** Is told when other cells are selected; returns how to stop. */
  addSelection(listener: () => void): () => void;
  /** Is told when another workbook comes into view; returns how to stop. */
  addWorkbook(listener: () => void): () => void;
  /** Tells of a workbook's changes from now on; returns how to stop. */
  follow(model: Model): () => void;
  /**
   * Tells that all of a workbook is new, once it is the one in view: whoever is told reads that one.
   *
   * @param isSame - Whether it is the workbook that was in view before, in another state
   */
  tellNew(model: Model, isSame?: boolean): void;
}

/** Listeners, each of which may be added more than once. */
function listenersOf<Arguments extends readonly unknown[]>() {
  const listeners = new Set<{ readonly call: (...args: Arguments) => void }>();
  return {
    add(call: (...args: Arguments) => void) {
      const entry = { call };
      listeners.add(entry);
      return () => void listeners.delete(entry);
    },
    tell(...args: Arguments) {
      for (const { call } of [...listeners]) call(...args);
    },
  };
}

/** Keeps the listeners of a page while one workbook after the other is open in it. */
export function makeWatchers(): Watchers {
  const ofChanges = listenersOf<[sheet: string]>();
  const ofSelection = listenersOf<[]>();
  const ofWorkbook = listenersOf<[]>();
  const tell = (model: Model, sheetIds: readonly string[]): void => {
    for (const id of sheetIds) {
      const name = model.getters.tryGetSheetName(id);
      if (name !== undefined) ofChanges.tell(name);
    }
  };
  return {
    add: ofChanges.add,
    addSelection: ofSelection.add,
    addWorkbook: ofWorkbook.add,
    follow(model) {
      const stopChanges = watchChanges(model, (sheetIds) => tell(model, sheetIds));
      const stopSelection = watchSelected(model, ofSelection.tell);
      return () => {
        stopChanges();
        stopSelection();
      };
    },
    tellNew(model, isSame = false) {
      if (!isSame) ofWorkbook.tell();
      tell(model, model.getters.getSheetIds());
    },
  };
}
