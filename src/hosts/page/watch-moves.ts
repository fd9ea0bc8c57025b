import type { Model } from "@odoo/o-spreadsheet";

/** What the library tells of a command that moves cells, after it is done. */
interface MovingCommand {
  readonly type: string;
  readonly sheetId: string;
  readonly dimension: "ROW" | "COL";
  readonly position?: "before" | "after";
  readonly base?: number;
  readonly quantity?: number;
}

const MOVES = new Set(["ADD_COLUMNS_ROWS", "REMOVE_COLUMNS_ROWS", "MOVE_COLUMNS_ROWS"]);

/** Rows added behind the last one, as the grid offers at its end, move nothing. */
function isAppended(
  { getters }: Model,
  { type, sheetId, dimension, position, base, quantity }: MovingCommand,
): boolean {
  if (type !== "ADD_COLUMNS_ROWS" || position !== "after" || base === undefined || quantity === undefined) return false;
  const count = dimension === "ROW" ? getters.getNumberRows(sheetId) : getters.getNumberCols(sheetId);
  return base + quantity >= count - 1;
}

/** Notes in a set the sheets on which rows or columns are inserted, deleted or moved; returns how to stop. */
export function watchMoves(model: Model, moved: Set<string>): () => void {
  const owner = {};
  const note = (command: MovingCommand): void => {
    if (MOVES.has(command.type) && !isAppended(model, command)) moved.add(command.sheetId);
  };
  model.on("command-dispatched", owner, note as never);
  return () => model.off("command-dispatched", owner);
}
