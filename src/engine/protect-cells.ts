import { type CommandResult, type Model, registries, UIPlugin } from "@odoo/o-spreadsheet";

const PLUGIN = "VANE_PROTECTION";

/** Sheets whose locked cells stay as they are. A sheet is taken out when the person takes its protection off. */
export type ProtectedSheets = Set<string>;

/** The library's own words for these; its list of them exists for types alone. */
const ALLOWED = "Success" as CommandResult;
/** Why a change of a locked cell is refused. */
export const PROTECTED = "Readonly" as CommandResult;

/** A cell's place as the library counts: from 0. */
export interface LockPlace {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

interface CellCommand extends LockPlace {
  readonly type: string;
  readonly content?: string;
}

type Getters = Model["getters"];

/** The sheets of each workbook, by the getters that its plugins share. */
const protectedSheets = new WeakMap<object, ProtectedSheets>();

/** Whether a sheet's locked cells are kept. */
export function isProtectedSheet(getters: object, sheetId: string): boolean {
  return protectedSheets.get(getters)?.has(sheetId) === true;
}

/** Whether a cell may not be changed: its sheet is protected, and its file does not mark it as an input cell. */
export function isLockedCell(getters: Getters, place: LockPlace): boolean {
  if (!isProtectedSheet(getters, place.sheetId)) return false;
  const style = getters.getCell(getters.getMainCellPosition(place))?.style as { readonly unlocked?: true } | undefined;
  return style?.unlocked !== true;
}

class ProtectionPlugin extends UIPlugin {
  override allowDispatch(command: { readonly type: string }): CommandResult {
    const changesContent = command.type === "CLEAR_CELL" || (command.type === "UPDATE_CELL" && "content" in command);
    if (!changesContent) return ALLOWED;
    const place = command as CellCommand;
    if (!isProtectedSheet(this.getters, place.sheetId)) return ALLOWED;
    if (this.getters.tryGetSheet(place.sheetId) === undefined) return ALLOWED;
    // What is empty already loses nothing; the grid empties whole blocks.
    const isEmptied = (place.content ?? "") === "" && this.getters.getCell(place)?.isFormula !== true;
    if (isEmptied && (this.getters.getEvaluatedCell(place).formattedValue ?? "") === "") return ALLOWED;
    return isLockedCell(this.getters, place) ? PROTECTED : ALLOWED;
  }
}

/** Adds the protection; a model made later knows it. */
export function registerProtection(): void {
  if (!registries.featurePluginRegistry.contains(PLUGIN))
    registries.featurePluginRegistry.add(PLUGIN, ProtectionPlugin);
}

/** Lets no locked cell of these sheets be typed into, emptied or pasted over; the set may change while the workbook is open. */
export function protectCells(model: Model, sheets: ProtectedSheets): void {
  protectedSheets.set(model.getters, sheets);
}
