import { CellError } from "../../cells/index.js";
import { toBoolean, toNumber } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "../formula/values.js";

/** Calls back with every value of an argument, and whether it was given by itself and not in a block. */
export function eachValue(value: Value, context: Context, visit: (value: Scalar, isAlone: boolean) => void): void {
  if (value instanceof Range) eachCell(value, context, (scalar) => visit(scalar, false));
  else if (value instanceof Areas)
    for (const range of value.ranges) eachCell(range, context, (scalar) => visit(scalar, false));
  else if (value instanceof Matrix) {
    context.book.budget.spend(value.height * value.width);
    for (const row of value.rows) for (const scalar of row) visit(scalar, false);
  } else if (value instanceof Lambda) throw ERROR.value;
  else visit(value ?? null, true);
}

/** Calls back with every cell of a block down to the last one in use. */
export function eachCell(
  range: Range,
  { book }: Context,
  visit: (value: Scalar, row: number, column: number) => void,
): void {
  const { grid, firstRow, firstColumn, usedLastRow, usedLastColumn } = range;
  if (usedLastRow < firstRow || usedLastColumn < firstColumn) return;
  book.budget.spend((usedLastRow - firstRow + 1) * (usedLastColumn - firstColumn + 1));
  for (let row = firstRow; row <= usedLastRow; row += 1) {
    for (let column = firstColumn; column <= usedLastColumn; column += 1) visit(grid.cellAt(row, column), row, column);
  }
}

/**
 * Returns the numbers of arguments, as SUM takes them: in blocks only what is a number, given by itself also truth values
 * and texts that hold one. @throws {CellError} The first error, or text that is no number
 */
export function numbersOf(values: readonly Value[], context: Context): number[] {
  const numbers: number[] = [];
  for (const value of values) {
    eachValue(value, context, (scalar, isAlone) => {
      if (typeof scalar === "number") numbers.push(scalar);
      else if (scalar instanceof CellError) throw scalar;
      else if (isAlone) numbers.push(toNumber(scalar));
    });
  }
  return numbers;
}

/** The same as AVERAGEA takes them: text in blocks is 0, truth values are 1 and 0. */
export function numbersAndWordsOf(values: readonly Value[], context: Context): number[] {
  const numbers: number[] = [];
  for (const value of values) {
    eachValue(value, context, (scalar, isAlone) => {
      if (scalar instanceof CellError) throw scalar;
      if (typeof scalar === "number") numbers.push(scalar);
      else if (typeof scalar === "boolean") numbers.push(scalar ? 1 : 0);
      else if (isAlone) numbers.push(toNumber(scalar));
      else if (typeof scalar === "string") numbers.push(0);
    });
  }
  return numbers;
}

/** Returns the truth values of arguments, as AND takes them: text and blanks in blocks are passed over. */
export function truthsOf(values: readonly Value[], context: Context): boolean[] {
  const truths: boolean[] = [];
  for (const value of values) {
    eachValue(value, context, (scalar, isAlone) => {
      if (scalar instanceof CellError) throw scalar;
      if (typeof scalar === "boolean" || typeof scalar === "number") truths.push(toBoolean(scalar));
      else if (isAlone) truths.push(toBoolean(scalar));
    });
  }
  if (truths.length === 0) throw ERROR.value;
  return truths;
}

/** Returns two arguments' numbers in pairs, places left out where either is no number. @throws {CellError} */
export function pairsOf(one: Value, other: Value, context: Context): { readonly x: number[]; readonly y: number[] } {
  const ones = flat(one, context);
  const others = flat(other, context);
  if (ones.length !== others.length) throw ERROR.missing;
  const x: number[] = [];
  const y: number[] = [];
  ones.forEach((value, index) => {
    const partner = others[index] as Scalar;
    if (value instanceof CellError) throw value;
    if (partner instanceof CellError) throw partner;
    if (typeof value !== "number" || typeof partner !== "number") return;
    x.push(value);
    y.push(partner);
  });
  return { x, y };
}

/** Returns every value of an argument, blanks included, row by row. */
export function flat(value: Value, context: Context): Scalar[] {
  const values: Scalar[] = [];
  if (value instanceof Range) {
    context.book.budget.spend(value.height * Math.min(value.width, value.usedLastColumn));
    const lastRow = value.lastRow > 100_000 ? Math.max(value.usedLastRow, value.firstRow) : value.lastRow;
    for (let row = value.firstRow; row <= lastRow; row += 1) {
      for (let column = value.firstColumn; column <= value.lastColumn; column += 1)
        values.push(value.grid.cellAt(row, column));
    }
    return values;
  }
  eachValue(value, context, (scalar) => values.push(scalar));
  return values;
}

/** Returns an argument's values as rows of columns. */
export function sum(numbers: readonly number[]): number {
  let total = 0;
  let lost = 0;
  for (const number of numbers) {
    // What a sum of binary fractions loses is added at its end, so that ten tenths are 1.
    const next = total + number;
    lost += Math.abs(total) >= Math.abs(number) ? total - next + number : number - next + total;
    total = next;
  }
  return Number.isFinite(lost) ? total + lost : total;
}

export function mean(numbers: readonly number[]): number {
  if (numbers.length === 0) throw ERROR.division;
  return sum(numbers) / numbers.length;
}
