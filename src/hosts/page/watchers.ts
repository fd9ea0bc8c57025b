import type { Model } from "@odoo/o-spreadsheet";
import { watchChanges } from "../../engine/index.js";

/** Is called with the name of a sheet whose cells changed. */
export type SheetListener = (sheet: string) => void;

/** Who is told of changes, whichever workbook is open. */
export interface Watchers {
  /** Returns how to stop. */
  add(listener: SheetListener): () => void;
  /** Tells of a workbook from now on, and that all of it is new; returns how to stop. */
  follow(model: Model): () => void;
}

/** Keeps the listeners of a page while one workbook after the other is open in it. */
export function makeWatchers(): Watchers {
  const listeners = new Set<{ readonly call: SheetListener }>();
  const tell = (model: Model, sheetIds: readonly string[]): void => {
    const names = sheetIds.flatMap((id) => model.getters.tryGetSheetName(id) ?? []);
    for (const { call } of [...listeners]) for (const name of names) call(name);
  };
  return {
    add(call) {
      const entry = { call };
      listeners.add(entry);
      return () => void listeners.delete(entry);
    },
    follow(model) {
      tell(model, model.getters.getSheetIds());
      return watchChanges(model, (sheetIds) => tell(model, sheetIds));
    },
  };
}
