import { isCoreCommand, type Model } from "@odoo/o-spreadsheet";

/** What the library tells of each command; those that change the workbook name their sheet. */
interface Command {
  readonly type: string;
  readonly sheetId?: string;
}

const WHOLE_WORKBOOK = new Set(["UNDO", "REDO"]);

/**
 * Calls the listener once after each step that changed the workbook, by hand or by code.
 *
 * @param listener - Receives the ids of the sheets that changed; all of them when a step was taken back
 * @returns How to stop
 */
export function watchChanges(model: Model, listener: (sheetIds: readonly string[]) => void): () => void {
  const owner = {};
  const changed = new Set<string>();
  const noteCommand = (command: Command): void => {
    if (WHOLE_WORKBOOK.has(command.type)) for (const id of model.getters.getSheetIds()) changed.add(id);
    else if (isCoreCommand(command as never)) changed.add(command.sheetId ?? model.getters.getActiveSheetId());
  };
  const tell = (): void => {
    if (changed.size === 0) return;
    const sheetIds = [...changed];
    changed.clear();
    listener(sheetIds);
  };
  model.on("command-dispatched", owner, noteCommand as never);
  model.on("command-finalized", owner, tell);
  return () => {
    model.off("command-dispatched", owner);
    model.off("command-finalized", owner);
  };
}
