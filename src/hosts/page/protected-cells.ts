import { helpers, type Model } from "@odoo/o-spreadsheet";
import { isLockedCell, PROTECTED, type ProtectedSheets } from "../../engine/index.js";
import type { EntryNote } from "./grid/entry-note.js";
import type { EntryPlace } from "./grid/entry-store.js";

interface Rejection {
  readonly command: { readonly type: string; readonly sheetId?: string; readonly col?: number; readonly row?: number };
  readonly result: { isCancelledBecause(reason: never): boolean };
}

/** Says beside a locked cell that it is locked, and how to change it all the same. */
export function tellLocked(model: Model, sheets: ProtectedSheets, note: EntryNote, place: EntryPlace): void {
  const { getters } = model;
  const isFormula = getters.getCell(place)?.isFormula === true;
  note.show(
    place,
    `${helpers.toXC(place.col, place.row)} is ${isFormula ? "calculated and " : ""}locked. Type into the input cells (shaded).`,
    {
      label: `Take the protection off “${getters.getSheetName(place.sheetId)}”`,
      act: () => void sheets.delete(place.sheetId),
    },
  );
}

/** Says so when a paste or another step would change locked cells, and did nothing; returns how to stop. */
export function watchLocked(model: Model, sheets: ProtectedSheets, note: EntryNote): () => void {
  const owner = {};
  const { getters } = model;
  const firstLocked = (): EntryPlace => {
    const sheetId = getters.getActiveSheetId();
    const { left, top, right, bottom } = getters.getSelectedZone();
    for (let row = top; row <= bottom; row += 1) {
      for (let col = left; col <= right; col += 1) {
        if (isLockedCell(getters, { sheetId, col, row })) return { sheetId, col, row };
      }
    }
    return getters.getActivePosition();
  };
  const tell = ({ command, result }: Rejection): void => {
    if (!result.isCancelledBecause(PROTECTED as never)) return;
    const { type, sheetId, col, row } = command;
    if (sheetId !== undefined && col !== undefined && row !== undefined) {
      if (sheets.has(sheetId)) tellLocked(model, sheets, note, { sheetId, col, row });
      return;
    }
    const place = firstLocked();
    if (!type.startsWith("PASTE")) tellLocked(model, sheets, note, place);
    else
      note.show(
        place,
        "Nothing was pasted: part of it would go into locked cells. Paste into the input cells (shaded) alone.",
      );
  };
  model.on("command-rejected", owner, tell as never);
  return () => model.off("command-rejected", owner);
}
