import { WORKBOOK_LIMITS } from "./limits.js";

/** A cell's place: both count from 1. */
export interface CellPosition {
  readonly row: number;
  readonly column: number;
}

/** A block of cells, corners included. */
export interface CellRange {
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** How many cells a block holds. */
export function cellCount({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): number {
  return (lastRow - firstRow + 1) * (lastColumn - firstColumn + 1);
}

/**
 * Spells a column's number in letters.
 *
 * @example
 * columnLetters(28) // => "AB"
 */
export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/**
 * Reads a column's letters, in either case.
 *
 * @example
 * columnNumber("AB") // => 28
 */
export function columnNumber(letters: string): number {
  let number = 0;
  for (const letter of letters.toUpperCase()) number = number * 26 + letter.charCodeAt(0) - 64;
  return number;
}

/**
 * Spells a cell's address.
 *
 * @example
 * formatAddress(7, 2) // => "B7"
 */
export function formatAddress(row: number, column: number): string {
  return columnLetters(column) + row;
}

/**
 * Reads a plain address such as B7 (dollar signs allowed), or returns undefined for anything else and for a place
 * outside the sheet.
 */
export function parseAddress(address: string): CellPosition | undefined {
  let at = 0;
  let column = 0;
  if (address.charCodeAt(at) === 36) at += 1;
  const firstLetter = at;
  for (; at < address.length; at += 1) {
    const code = address.charCodeAt(at) & 0xdf;
    if (code < 65 || code > 90 || address.charCodeAt(at) < 65) break;
    column = column * 26 + code - 64;
  }
  const letters = at - firstLetter;
  if (letters === 0 || letters > 3 || column > WORKBOOK_LIMITS.columns) return undefined;
  if (address.charCodeAt(at) === 36) at += 1;
  const firstDigit = at;
  let row = 0;
  for (; at < address.length; at += 1) {
    const digit = address.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return undefined;
    row = row * 10 + digit;
  }
  if (at === firstDigit || at - firstDigit > 7 || row < 1 || row > WORKBOOK_LIMITS.rows) return undefined;
  return { row, column };
}

/** Reads a range such as A1:C9 or a single address, corners in any order; undefined for anything else. */
export function parseRange(text: string): CellRange | undefined {
  const colon = text.indexOf(":");
  const first = parseAddress(colon < 0 ? text : text.slice(0, colon));
  const last = colon < 0 ? first : parseAddress(text.slice(colon + 1));
  if (first === undefined || last === undefined) return undefined;
  return {
    firstRow: Math.min(first.row, last.row),
    firstColumn: Math.min(first.column, last.column),
    lastRow: Math.max(first.row, last.row),
    lastColumn: Math.max(first.column, last.column),
  };
}

/** Spells a range; one cell is spelled as an address. */
export function formatRange(range: CellRange): string {
  const first = formatAddress(range.firstRow, range.firstColumn);
  const last = formatAddress(range.lastRow, range.lastColumn);
  return first === last ? first : `${first}:${last}`;
}

/** Whether a cell lies in a range. */
export function isInRange(range: CellRange, row: number, column: number): boolean {
  return row >= range.firstRow && row <= range.lastRow && column >= range.firstColumn && column <= range.lastColumn;
}
