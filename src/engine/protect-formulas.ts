import { type CommandResult, type Model, registries, UIPlugin } from "@odoo/o-spreadsheet";

const PLUGIN = "VANE_PROTECTION";

/** Sheets on which formulas stay as they are. A sheet is taken out when the person takes its protection off. */
export type ProtectedSheets = Set<string>;

/** The library's own words for these; its list of them exists for types alone. */
const ALLOWED = "Success" as CommandResult;
/** Why a change of a protected formula is refused. */
export const PROTECTED = "Readonly" as CommandResult;

interface CellCommand {
  readonly type: string;
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
  readonly content?: string;
}

/** The sheets of each workbook, by the getters that its plugins share. */
const protectedSheets = new WeakMap<object, ProtectedSheets>();

class ProtectionPlugin extends UIPlugin {
  override allowDispatch(command: { readonly type: string }): CommandResult {
    const changesContent = command.type === "CLEAR_CELL" || (command.type === "UPDATE_CELL" && "content" in command);
    if (!changesContent) return ALLOWED;
    const { sheetId, col, row } = command as CellCommand;
    if (protectedSheets.get(this.getters)?.has(sheetId) !== true) return ALLOWED;
    return this.getters.getCell({ sheetId, col, row })?.isFormula === true ? PROTECTED : ALLOWED;
  }
}

/** Adds the protection; a model made later knows it. */
export function registerProtection(): void {
  if (!registries.featurePluginRegistry.contains(PLUGIN))
    registries.featurePluginRegistry.add(PLUGIN, ProtectionPlugin);
}

/** Lets no formula of these sheets be typed over, emptied or pasted over; the set may change while the workbook is open. */
export function protectFormulas(model: Model, sheets: ProtectedSheets): void {
  protectedSheets.set(model.getters, sheets);
}
