import { type BlockAddress, HostError } from "../../workbook/index.js";
import { type CellRange, formatAddress, parseRange } from "../../xlsx/address.js";

/** Splits what Excel calls an address, `'Floor 1'!A1:B2`, into sheet and range. */
export function splitAddress(address: string): BlockAddress {
  const mark = address.lastIndexOf("!");
  const sheet = address.slice(0, Math.max(mark, 0));
  const plain = /^'.*'$/.test(sheet) ? sheet.slice(1, -1).replaceAll("''", "'") : sheet;
  return { sheet: plain, range: address.slice(mark + 1).replaceAll("$", "") };
}

/** Splits the address of several blocks of one sheet, `'Floor 1'!A1:B2,'Floor 1'!D4`, into their ranges. */
export function rangesIn(address: string): readonly string[] {
  const pieces = address.match(/(?:'(?:[^']|'')*'|[^,'])+/g) ?? [];
  return pieces.map((piece) => splitAddress(piece.trim()).range);
}

/**
 * Reads the range of a block.
 *
 * @throws {HostError} When it is not in A1 notation
 */
export function rangeOf({ sheet, range }: BlockAddress): CellRange {
  const parsed = parseRange(range);
  if (parsed !== undefined) return parsed;
  throw new HostError(`“${range}” on sheet “${sheet}” is not a block of cells. Write it as B2:D9.`);
}

/** Names one cell of a block for a message: `Outlets!C7`. */
export function placeIn(address: BlockAddress, rowIndex: number, columnIndex: number): string {
  const { firstRow, firstColumn } = rangeOf(address);
  return `${address.sheet}!${formatAddress(firstRow + rowIndex, firstColumn + columnIndex)}`;
}
