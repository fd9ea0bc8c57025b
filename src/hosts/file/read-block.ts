import { CELL_ERROR_CODES, FUNCTION_SPELLINGS } from "../../cells/index.js";
import { type BlockAddress, type CellBlock, type CellValue, HostError } from "../../workbook/index.js";
import {
  type CellRange,
  cellAtPosition,
  cellCount,
  type CellValue as FileValue,
  formatAddress,
  parseRange,
  readableFormula,
  readSheet,
  type Sheet,
  type Workbook,
} from "../../xlsx/index.js";

/** The spelling of the functions in a file is read by their ids. */

/** So many cells are read at once; whole columns are never meant. */
const MOST_CELLS = 1_000_000;

/** What calculating said of cells in error, by `placeKey`; a file keeps the code alone. */
export type ErrorMessages = ReadonlyMap<string, string>;

export function placeKey(sheet: string, address: string): string {
  return `${sheet.toLowerCase()}!${address}`;
}

/** Returns the cells that an address means; says so when it means none, or more than can be meant. */
export function rangeOf({ sheet, range }: BlockAddress): CellRange {
  const block = parseRange(range);
  if (block === undefined) {
    throw new HostError(`“${range}” on sheet “${sheet}” is not a block of cells. Write it as B2:D9.`);
  }
  const cells = cellCount(block);
  if (cells > MOST_CELLS) {
    throw new HostError(
      `${sheet}!${range} has ${cells} cells, more than ${MOST_CELLS}. Name the part of it that is used.`,
    );
  }
  return block;
}

function shownValue(value: FileValue, sheet: Sheet, address: string, messages: ErrorMessages): CellValue {
  if (value === null || typeof value !== "object") return value;
  const place = `${sheet.name}!${address}`;
  const error = CELL_ERROR_CODES.find((code) => code === value.error) ?? "#VALUE!";
  const known = messages.get(placeKey(sheet.name, address)) ?? "";
  return { error, message: known === "" ? `${place} shows ${value.error}.` : known };
}

/** Returns what stands in a block, formulas as a person types them. */
export function readBlock(workbook: Workbook, address: BlockAddress, messages: ErrorMessages): CellBlock {
  const { firstRow, lastRow, firstColumn, lastColumn } = rangeOf(address);
  const sheet = readSheet(workbook, address.sheet);
  const rows = Array.from({ length: lastRow - firstRow + 1 }, (_, down) =>
    Array.from({ length: lastColumn - firstColumn + 1 }, (__, across) => {
      const [row, column] = [firstRow + down, firstColumn + across];
      const cell = cellAtPosition(sheet, row, column);
      const text = cell?.formula?.text ?? "";
      return {
        value: shownValue(cell?.value ?? null, sheet, formatAddress(row, column), messages),
        formula: text === "" ? null : `=${readableFormula(text, FUNCTION_SPELLINGS)}`,
      };
    }),
  );
  return {
    address,
    values: rows.map((row) => row.map(({ value }) => value)),
    formulas: rows.map((row) => row.map(({ formula }) => formula)),
  };
}
