import type { Model } from "@odoo/o-spreadsheet";
import { FUNCTION_SPELLINGS } from "../../../cells/index.js";
import {
  type CellEdit,
  type CellValue,
  callsFunction,
  formatRange,
  parseAddress,
  storedFormula,
} from "../../../xlsx/index.js";
import type { ChangedCell } from "./changes-since.js";

/** A cell's value as a file stores it. */
function shownValue(model: Model, sheetId: string, col: number, row: number): CellValue {
  const cell = model.getters.getEvaluatedCell({ sheetId, col, row });
  if (cell.type === "empty") return null;
  return cell.type === "error" ? { error: String(cell.value) } : cell.value;
}

/** Cells that a formula's result fills, its own first; undefined for one cell. */
function spillOf(model: Model, sheetId: string, col: number, row: number): string | undefined {
  const zone = model.getters.getSpreadZone({ sheetId, col, row });
  if (zone === undefined || (zone.left === zone.right && zone.top === zone.bottom)) return undefined;
  const { top, left, bottom, right } = zone;
  return formatRange({ firstRow: top + 1, firstColumn: left + 1, lastRow: bottom + 1, lastColumn: right + 1 });
}

/** Returns changed cells as edits of the file, formulas in the spelling of files with the result that the page shows. */
export function cellEdits(model: Model, cells: readonly ChangedCell[]): readonly CellEdit[] {
  return cells.flatMap(({ sheetId, sheet, address, after }): readonly CellEdit[] => {
    const position = parseAddress(address);
    if (position === undefined) return [];
    const [col, row] = [position.column - 1, position.row - 1];
    const value = shownValue(model, sheetId, col, row);
    if (!after.startsWith("="))
      return [{ kind: "value", sheet, address, value: after === "" ? null : value, formula: "replace" }];
    const formula = storedFormula(after.slice(1), FUNCTION_SPELLINGS);
    const range = spillOf(model, sheetId, col, row);
    const isDynamic = range !== undefined || callsFunction(formula, FUNCTION_SPELLINGS);
    const form = isDynamic ? ({ form: "dynamic", range: range ?? address } as const) : ({ form: "plain" } as const);
    return [{ kind: "formula", sheet, address, formula, result: value, ...form }];
  });
}
