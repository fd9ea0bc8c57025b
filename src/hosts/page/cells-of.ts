import type { Model } from "@odoo/o-spreadsheet";
import { CELL_ERROR_CODES } from "../../cells/index.js";
import { type BlockAddress, type CellValue, HostError } from "../../workbook/index.js";
import { formatAddress, parseRange } from "../../xlsx/address.js";

/** A cell's place as the engine counts: from 0. */
export interface CellPlace {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/**
 * Returns the places of a block, row by row.
 *
 * @throws {HostError} When there is no such sheet, the range is none, or it leaves the sheet
 */
export function placesOf({ getters }: Model, { sheet, range }: BlockAddress): readonly (readonly CellPlace[])[] {
  const sheetId = getters.getSheetIdByName(sheet);
  if (sheetId === undefined) throw new HostError(`There is no sheet “${sheet}” in this workbook.`);
  const block = parseRange(range);
  if (block === undefined)
    throw new HostError(`“${range}” on sheet “${sheet}” is not a block of cells. Write it as B2:D9.`);
  const { firstRow, lastRow, firstColumn, lastColumn } = block;
  const rows = getters.getNumberRows(sheetId);
  const columns = getters.getNumberCols(sheetId);
  if (lastRow > rows || lastColumn > columns) {
    throw new HostError(`${sheet}!${range} leaves the sheet, which ends at ${formatAddress(rows, columns)}.`);
  }
  return Array.from({ length: lastRow - firstRow + 1 }, (_, row) =>
    Array.from({ length: lastColumn - firstColumn + 1 }, (__, column) => ({
      sheetId,
      col: firstColumn - 1 + column,
      row: firstRow - 1 + row,
    })),
  );
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
