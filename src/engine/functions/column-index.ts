import type { Context } from "../formula/context.js";
import { numberInText } from "../formula/text-to-number.js";
import type { Range } from "../formula/values.js";

/** A column this long is looked through once and remembered. */
const LONG = 64;

/**
 * Returns what finds the rows of a value in a long column, counted from 0; undefined for a short one. A number is also found
 * in a text that holds it, as COUNTIF has it.
 */
export function rowsByValue(
  column: Range,
  { book }: Context,
): ((wanted: number | string) => readonly number[]) | undefined {
  const { grid, firstRow, firstColumn, usedLastRow } = column;
  if (usedLastRow - firstRow < LONG) return undefined;
  const key = `rows ${grid.index} ${firstColumn} ${firstRow} ${usedLastRow}`;
  let index = book.memory.get(key) as Map<number | string, number[]> | undefined;
  if (index === undefined) {
    book.budget.spend(usedLastRow - firstRow + 1);
    index = new Map();
    for (let row = firstRow; row <= usedLastRow; row += 1) {
      const value = grid.cellAt(row, firstColumn);
      if (typeof value !== "number" && typeof value !== "string") continue;
      const text = typeof value === "string" ? value.toLowerCase() : value;
      const found = typeof text === "string" && /\d/.test(text) ? (numberInText(text) ?? text) : text;
      const rows = index.get(found);
      if (rows === undefined) index.set(found, [row - firstRow]);
      else rows.push(row - firstRow);
    }
    book.memory.set(key, index);
  }
  const known = index;
  return (wanted) => known.get(typeof wanted === "string" ? wanted.toLowerCase() : wanted) ?? [];
}

/** The first row of an exact value in a long column, text and numbers kept apart, as MATCH has it; -1 for none. */
export function firstRowOf(column: Range, wanted: number | string, { book }: Context): number | undefined {
  const { grid, firstRow, firstColumn, usedLastRow } = column;
  if (usedLastRow - firstRow < LONG) return undefined;
  const key = `first ${grid.index} ${firstColumn} ${firstRow} ${usedLastRow}`;
  let index = book.memory.get(key) as Map<number | string, number> | undefined;
  if (index === undefined) {
    book.budget.spend(usedLastRow - firstRow + 1);
    index = new Map();
    for (let row = firstRow; row <= usedLastRow; row += 1) {
      const value = grid.cellAt(row, firstColumn);
      if (typeof value !== "number" && typeof value !== "string") continue;
      const found = typeof value === "string" ? value.toLowerCase() : value;
      if (!index.has(found)) index.set(found, row - firstRow);
    }
    book.memory.set(key, index);
  }
  return index.get(typeof wanted === "string" ? wanted.toLowerCase() : wanted) ?? -1;
}
