import { isSameNumber } from "../formula/compare.js";
import type { Context } from "../formula/context.js";
import { numberInText } from "../formula/text-to-number.js";
import type { Range } from "../formula/values.js";

/** A column this long is looked through once and remembered. */
const LONG = 64;

/** The rows of a value, counted from 0, in the order of the column. */
type FindRows = (wanted: number | string) => readonly number[];

/**
 * Returns what finds the rows of a value in a long column; undefined for a short one. A number is also found in a text that
 * holds it, as COUNTIF has it.
 */
export function rowsByValue(column: Range, context: Context): FindRows | undefined {
  return remembered(column, context, "rows", (text) => (/\d/.test(text) ? (numberInText(text) ?? text) : text));
}

/** The first row of an exact value in a long column, text and numbers kept apart, as MATCH has it; -1 for none. */
export function firstRowOf(column: Range, wanted: number | string, context: Context): number | undefined {
  const find = remembered(column, context, "first", (text) => text);
  return find && (find(wanted)[0] ?? -1);
}

function remembered(
  { grid, firstRow, firstColumn, usedLastRow }: Range,
  { book }: Context,
  kind: "rows" | "first",
  read: (text: string) => number | string,
): FindRows | undefined {
  if (usedLastRow - firstRow < LONG) return undefined;
  const key = `${kind} ${grid.index} ${firstColumn} ${firstRow} ${usedLastRow}`;
  const known = book.memory.get(key) as FindRows | undefined;
  if (known !== undefined) return known;
  book.budget.spend(usedLastRow - firstRow + 1);
  const rowsOf = new Map<number | string, number[]>();
  for (let row = firstRow; row <= usedLastRow; row += 1) {
    const value = grid.cellAt(row, firstColumn);
    if (typeof value !== "number" && typeof value !== "string") continue;
    const found = typeof value === "string" ? read(value.toLowerCase()) : value;
    const rows = rowsOf.get(found);
    if (rows === undefined) rowsOf.set(found, [row - firstRow]);
    else rows.push(row - firstRow);
  }
  const find = finderIn(rowsOf);
  book.memory.set(key, find);
  return find;
}

/** Numbers that a spreadsheet program takes for the same one, though their last digits differ, are found together. */
function finderIn(rowsOf: ReadonlyMap<number | string, readonly number[]>): FindRows {
  const numbers = Float64Array.from([...rowsOf.keys()].filter((key) => typeof key === "number")).sort();
  const isSame = (place: number, wanted: number) => place in numbers && isSameNumber(numbers[place] as number, wanted);
  return (wanted) => {
    if (typeof wanted === "string") return rowsOf.get(wanted.toLowerCase()) ?? [];
    const middle = placeOf(numbers, wanted);
    let [from, to] = [middle, middle];
    while (isSame(from - 1, wanted)) from -= 1;
    while (isSame(to, wanted)) to += 1;
    const found = [...numbers.subarray(from, to)].flatMap((number) => rowsOf.get(number) ?? []);
    return to - from > 1 ? found.sort((one, other) => one - other) : found;
  };
}

/** The first place of a number that is not below the wanted one. */
function placeOf(numbers: Float64Array, wanted: number): number {
  let [low, high] = [0, numbers.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((numbers[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
