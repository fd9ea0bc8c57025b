import { CellError } from "../../cells/index.js";
import { toMatrix } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, Matrix, Range, type Value } from "../formula/values.js";

function numbersIn(value: Value, { book }: Context): number[][] {
  if (value instanceof CellError) throw value;
  return toMatrix(value, (cells) => book.budget.spend(cells)).rows.map((row) =>
    row.map((scalar) => {
      if (scalar instanceof CellError) throw scalar;
      if (typeof scalar !== "number") throw ERROR.value;
      return scalar;
    }),
  );
}

/** How large a block is, before it is read. */
function sizeOf(value: Value): { readonly height: number; readonly width: number } {
  return value instanceof Matrix || value instanceof Range ? value : { height: 1, width: 1 };
}

function square(value: Value, context: Context): number[][] {
  const { height, width } = sizeOf(value);
  if (height !== width) throw ERROR.value;
  context.book.budget.spend(height ** 3);
  const rows = numbersIn(value, context);
  if (rows.length !== rows[0]?.length) throw ERROR.value;
  return rows;
}

function multiplied(one: Value, other: Value, context: Context): number[][] {
  const [left, right] = [sizeOf(one), sizeOf(other)];
  context.book.budget.spend(left.height * left.width * right.width);
  const [a, b] = [numbersIn(one, context), numbersIn(other, context)];
  const width = b[0]?.length ?? 0;
  if ((a[0]?.length ?? 0) !== b.length) throw ERROR.value;
  context.book.budget.spendBlock("MMULT", a.length, width);
  return a.map((row) =>
    Array.from({ length: width }, (_, column) =>
      row.reduce((total, value, index) => total + value * (b[index]?.[column] as number), 0),
    ),
  );
}

/** Brings a matrix to a triangle by exchanging and subtracting rows; what is beside it goes along. */
function eliminate(rows: number[][], beside: number[][]): number {
  let determinant = 1;
  for (let at = 0; at < rows.length; at += 1) {
    let best = at;
    for (let row = at + 1; row < rows.length; row += 1) {
      if (Math.abs(rows[row]?.[at] as number) > Math.abs(rows[best]?.[at] as number)) best = row;
    }
    const pivot = rows[best] as number[];
    if (pivot[at] === 0) return 0;
    if (best !== at) {
      determinant = -determinant;
      [rows[at], rows[best]] = [pivot, rows[at] as number[]];
      [beside[at], beside[best]] = [beside[best] as number[], beside[at] as number[]];
    }
    determinant *= pivot[at] as number;
    for (let row = at + 1; row < rows.length; row += 1) subtract(rows, beside, row, at);
  }
  return determinant;
}

function subtract(rows: number[][], beside: number[][], row: number, at: number): void {
  const [target, source] = [rows[row] as number[], rows[at] as number[]];
  const factor = (target[at] as number) / (source[at] as number);
  if (factor === 0) return;
  for (let column = at; column < source.length; column += 1)
    target[column] = (target[column] as number) - factor * (source[column] as number);
  const [other, from] = [beside[row] as number[], beside[at] as number[]];
  for (let column = 0; column < from.length; column += 1)
    other[column] = (other[column] as number) - factor * (from[column] as number);
}

function inverse(given: number[][]): number[][] {
  const rows = given.map((row) => [...row]);
  const beside: number[][] = rows.map((_, row) => rows.map((__, column) => (row === column ? 1 : 0)));
  const determinant = eliminate(rows, beside);
  const size = Math.max(...given.flat().map(Math.abs)) ** given.length;
  if (Math.abs(determinant) <= size * 1e-18) throw ERROR.number;
  for (let at = rows.length - 1; at >= 0; at -= 1) {
    const pivot = rows[at]?.[at] as number;
    beside[at] = (beside[at] as number[]).map((value) => value / pivot);
    (rows[at] as number[])[at] = 1;
    for (let row = 0; row < at; row += 1) subtract(rows, beside, row, at);
  }
  return beside;
}

export const MATRICES = [
  fn("MMULT", "a a", (context, one, other) => multiplied(one, other, context)),
  fn("MDETERM", "a", (context, given) => {
    const rows = square(given, context);
    return eliminate(
      rows,
      rows.map(() => []),
    );
  }),
  fn("MINVERSE", "a", (context, given) => inverse(square(given, context))),
  fn("MUNIT", "n", (context, size) => {
    const count = Math.trunc(size);
    if (count < 1) throw ERROR.value;
    context.book.budget.spendBlock("MUNIT", count, count);
    return Array.from({ length: count }, (_, row) =>
      Array.from({ length: count }, (__, column) => (row === column ? 1 : 0)),
    );
  }),
];
