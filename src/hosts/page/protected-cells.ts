import { helpers, type Model } from "@odoo/o-spreadsheet";
import { PROTECTED, type ProtectedSheets } from "../../engine/index.js";
import type { PageMessages } from "./messages.js";

interface Rejection {
  readonly command: { readonly type: string; readonly sheetId?: string; readonly col?: number; readonly row?: number };
  readonly result: { isCancelledBecause(reason: never): boolean };
}

/** Asks whether to take a sheet's protection off when somebody types over one of its formulas; returns how to stop. */
export function askBeforeTypingOver(model: Model, sheets: ProtectedSheets, messages: PageMessages): () => void {
  const owner = {};
  let isAsking = false;
  const ask = async ({ command, result }: Rejection): Promise<void> => {
    const { sheetId, col, row } = command;
    if (isAsking || sheetId === undefined || col === undefined || row === undefined) return;
    if (!sheets.has(sheetId) || !result.isCancelledBecause(PROTECTED as never)) return;
    isAsking = true;
    const name = model.getters.getSheetName(sheetId);
    const answer = await messages.choose(
      `${helpers.toXC(col, row)} is calculated, and the sheet “${name}” is protected so that no formula is typed over by mistake. Type into the input cells instead.`,
      ["Leave it protected", "Take the protection off"],
    );
    if (answer === "Take the protection off") sheets.delete(sheetId);
    isAsking = false;
  };
  model.on("command-rejected", owner, ((rejection: Rejection) => void ask(rejection)) as never);
  return () => model.off("command-rejected", owner);
}
