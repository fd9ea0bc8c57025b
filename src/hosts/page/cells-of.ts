import type { Model } from "@odoo/o-spreadsheet";
import { CELL_ERROR_CODES } from "../../cells/index.js";
import type { CellValue } from "../../workbook/index.js";

/** A block of cells by its edges, all of them inside it. */
export interface Zone {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface CellPlace {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** Returns the places of a block, row by row. */
export function placesIn(sheetId: string, zone: Zone): readonly (readonly CellPlace[])[] {
  const columns = Array.from({ length: zone.right - zone.left + 1 }, (_, index) => zone.left + index);
  const rows = Array.from({ length: zone.bottom - zone.top + 1 }, (_, index) => zone.top + index);
  return rows.map((row) => columns.map((col) => ({ sheetId, col, row })));
}

/** Returns what a cell shows; an error with its message. */
export function cellValue(model: Model, place: CellPlace): CellValue {
  const cell = model.getters.getEvaluatedCell(place);
  if (cell.type === "empty") return null;
  if (cell.type === "error") {
    const code = CELL_ERROR_CODES.find((known) => known === cell.value) ?? "#VALUE!";
    return { error: code, message: cell.message?.toString() ?? "" };
  }
  return cell.value;
}

/** Returns a cell's formula as a person types it; null where it holds none. */
export function cellFormula(model: Model, place: CellPlace): string | null {
  const cell = model.getters.getCell(place);
  return cell?.isFormula ? cell.compiledFormula.toFormulaString(model.getters) : null;
}
