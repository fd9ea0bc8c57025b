import { type CommandResult, type Model, registries, UIPlugin } from "@odoo/o-spreadsheet";
import { DRAWING_TAG } from "./from-xlsx/figures.js";

const PLUGIN = "VANE_DRAWINGS";

const ALLOWED = "Success" as CommandResult;

/** Why something drawn is neither moved nor deleted: the file keeps it as it is. Not of the library's own words. */
export const DRAWING_STAYS = "DrawingStays" as unknown as CommandResult;

const CHANGES = new Set(["UPDATE_FIGURE", "DELETE_FIGURE"]);

interface FigureCommand {
  readonly type: string;
  readonly sheetId?: string;
  readonly figureId?: string;
}

class DrawingsPlugin extends UIPlugin {
  override allowDispatch(command: { readonly type: string }): CommandResult {
    if (!CHANGES.has(command.type)) return ALLOWED;
    const { sheetId = "", figureId = "" } = command as FigureCommand;
    return isDrawing(this.getters, sheetId, figureId) ? DRAWING_STAYS : ALLOWED;
  }
}

function isDrawing(getters: Model["getters"], sheetId: string, figureId: string): boolean {
  return getters.getFigure(sheetId, figureId)?.tag === DRAWING_TAG;
}

/** Lets charts and pictures of a file neither be moved nor deleted; a model made later knows it. */
export function registerDrawings(): void {
  if (!registries.featurePluginRegistry.contains(PLUGIN)) registries.featurePluginRegistry.add(PLUGIN, DrawingsPlugin);
}
