import { type CommandResult, type Model, registries, UIPlugin } from "@odoo/o-spreadsheet";
import { DRAWING_TAG } from "./from-xlsx/figures.js";

const PLUGIN = "VANE_KEEP_IN_PLACE";

const ALLOWED = "Success" as CommandResult;

/** Why something drawn is neither moved nor deleted: the file keeps it as it is. Not of the library's own words. */
export const DRAWING_STAYS = "DrawingStays" as unknown as CommandResult;
/**
 * Why cells are not sorted by the library, nor rows and columns dragged: it would leave formulas behind, and the file could
 * not follow. Not of the library's own words.
 */
export const ORDER_STAYS = "OrderStays" as unknown as CommandResult;

interface FigureCommand {
  readonly sheetId?: string;
  readonly figureId?: string;
}

class KeepInPlacePlugin extends UIPlugin {
  override allowDispatch(command: { readonly type: string }): CommandResult {
    if (command.type === "MOVE_COLUMNS_ROWS" || command.type === "SORT_CELLS") return ORDER_STAYS;
    if (command.type !== "UPDATE_FIGURE" && command.type !== "DELETE_FIGURE") return ALLOWED;
    const { sheetId = "", figureId = "" } = command as FigureCommand;
    return isDrawing(this.getters, sheetId, figureId) ? DRAWING_STAYS : ALLOWED;
  }
}

function isDrawing(getters: Model["getters"], sheetId: string, figureId: string): boolean {
  return getters.getFigure(sheetId, figureId)?.tag === DRAWING_TAG;
}

/** Lets what the file alone can move stay where it is; a model made later knows it. */
export function registerKeepInPlace(): void {
  if (!registries.featurePluginRegistry.contains(PLUGIN))
    registries.featurePluginRegistry.add(PLUGIN, KeepInPlacePlugin);
}
