import type { Model } from "@odoo/o-spreadsheet";
import { DRAWING_STAYS, ORDER_STAYS } from "../../engine/index.js";
import type { SortDirection } from "./grid/structure-menu-actions.js";
import type { Messages } from "./messages.js";

interface Command {
  readonly type: string;
  readonly sortDirection?: "asc" | "desc";
}

interface Rejection {
  readonly command: Command;
  readonly result: { isCancelledBecause(reason: never): boolean };
}

/** A key that is held down says it once. */
const AGAIN_MS = 1_000;

/**
 * Says so when somebody would move or delete a chart or picture, drag rows or columns, or make a column wider, and sorts
 * whole rows where the grid would sort cells; returns how to stop.
 */
export function tellKept(model: Model, messages: Messages, sort: (direction: SortDirection) => void): () => void {
  const owner = {};
  const told = new Map<string, number>();
  const tell = (text: string): void => {
    const now = performance.now();
    if (now - (told.get(text) ?? Number.NEGATIVE_INFINITY) > AGAIN_MS)
      messages.notifyUser({ type: "info", sticky: false, text });
    told.set(text, now);
  };
  const onRejected = ({ command, result }: Rejection): void => {
    if (result.isCancelledBecause(DRAWING_STAYS as never))
      tell("Charts and pictures stay as the file has them. Press Escape to go back to the cells.");
    if (!result.isCancelledBecause(ORDER_STAYS as never)) return;
    if (command.type === "SORT_CELLS") sort(command.sortDirection === "desc" ? "descending" : "ascending");
    else
      tell(
        "Rows and columns cannot be dragged: they would leave their formulas. Sort the table, or insert a row and copy into it.",
      );
  };
  let isSizeTold = false;
  const onCommand = ({ type }: Command): void => {
    if (type !== "RESIZE_COLUMNS_ROWS" || isSizeTold) return;
    isSizeTold = true;
    tell("Widths and heights change on this page alone. The file keeps its own.");
  };
  model.on("command-rejected", owner, onRejected as never);
  // Only what a person does: the library sizes rows in steps of other commands.
  model.on("command-dispatched", owner, onCommand as never);
  return () => {
    model.off("command-rejected", owner);
    model.off("command-dispatched", owner);
  };
}
