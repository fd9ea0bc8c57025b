import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import { type BlockEdit, HostError } from "../../workbook/index.js";
import {
  type CellEdit,
  callsFunction,
  cellAtPosition,
  formatAddress,
  PLAIN_STYLE,
  readSheet,
  type Sheet,
  storedFormula,
  type Workbook,
} from "../../xlsx/index.js";
import { rangeOf } from "./read-block.js";

const FAILURE = "Nothing was written.";

type Given = BlockEdit["cells"][number][number];

function requireUnlocked(sheet: Sheet, row: number, column: number): void {
  if (!sheet.isProtected) return;
  const style = sheet.workbook.styles[cellAtPosition(sheet, row, column)?.style ?? 0] ?? PLAIN_STYLE;
  if (!style.isLocked) return;
  throw new HostError(
    `${FAILURE} ${sheet.name}!${formatAddress(row, column)} is locked, and its sheet is protected. Use the input cells, or unprotect the sheet in a spreadsheet program.`,
  );
}

/** A formula is stored as the spreadsheet program itself would store it once it was typed. */
function cellEdit(sheet: string, address: string, given: Given): CellEdit {
  if (typeof given === "number" && !Number.isFinite(given)) {
    throw new HostError(`${FAILURE} The value for ${sheet}!${address} is not a finite number.`);
  }
  if (typeof given !== "string" || !given.startsWith("=")) return { kind: "value", sheet, address, value: given };
  const formula = storedFormula(given.slice(1), FUNCTION_SPELLINGS);
  const form = callsFunction(formula, FUNCTION_SPELLINGS) ? "dynamic" : "plain";
  return { kind: "formula", sheet, address, formula, result: null, form };
}

/**
 * Returns the edits of the file that write a block. What a cell may not take is refused here or when they are applied,
 * and then none is.
 *
 * @throws {HostError} When the block is none, has another shape than its cells, or is locked
 */
export function editsOfBlock(workbook: Workbook, { address, cells }: BlockEdit): readonly CellEdit[] {
  const { firstRow, lastRow, firstColumn, lastColumn } = rangeOf(address);
  const rows = lastRow - firstRow + 1;
  const columns = lastColumn - firstColumn + 1;
  if (cells.length !== rows || cells.some((row) => row.length !== columns)) {
    throw new HostError(
      `${FAILURE} ${address.sheet}!${address.range} has ${rows} rows and ${columns} columns, and other cells were given for it.`,
    );
  }
  const sheet = readSheet(workbook, address.sheet);
  return cells.flatMap((row, down) =>
    row.map((given, across) => {
      requireUnlocked(sheet, firstRow + down, firstColumn + across);
      return cellEdit(sheet.name, formatAddress(firstRow + down, firstColumn + across), given);
    }),
  );
}
