import { helpers, type Model } from "@odoo/o-spreadsheet";
import { shownCells } from "../../engine/index.js";

/** A cell in error on the sheet in view: where, which code, and what to do. */
export interface SheetError {
  readonly address: string;
  readonly col: number;
  readonly row: number;
  readonly code: string;
  readonly message: string;
}

/** Finds the cells in error of the sheet in view, from the top, in steps. */
export function* sheetErrors(model: Model): Generator<undefined, readonly SheetError[]> {
  const errors: SheetError[] = [];
  yield* shownCells(model, model.getters.getActiveSheetId(), (cell, col, row) => {
    if (cell.type !== "error") return;
    const address = helpers.toXC(col, row);
    errors.push({ col, row, address, code: String(cell.value), message: cell.message?.toString() ?? "" });
  });
  return errors.sort((a, b) => a.row - b.row || a.col - b.col);
}

/** Returns one sentence about them, null where there is none. */
export function errorSummary(errors: readonly SheetError[]): string | null {
  const first = errors[0];
  if (first === undefined) return null;
  const same = errors.filter(({ message }) => message === first.message);
  const cells = same.map(({ address }) => address);
  const named = cells.length > 4 ? `${cells.slice(0, 4).join(", ")} and ${cells.length - 4} more` : cells.join(", ");
  const others = errors.length - same.length;
  const rest = others === 0 ? "" : ` (${others} more ${others === 1 ? "cell is" : "cells are"} in error)`;
  return `${named}: ${first.code} – ${first.message}${rest}`;
}
