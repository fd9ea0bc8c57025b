import type { Context } from "./context.js";
import { ERROR, Matrix, type Scalar } from "./values.js";

/** The value that serves a place of a block made of several: a single row or column serves all. */
export function sharedAt(value: Scalar | Matrix, row: number, column: number): Scalar {
  if (!(value instanceof Matrix)) return value;
  const atRow = value.height === 1 ? 0 : row;
  const atColumn = value.width === 1 ? 0 : column;
  return atRow < value.height && atColumn < value.width ? value.at(atRow, atColumn) : ERROR.block;
}

/** Calculates something for each place of the largest block among its inputs. */
export function broadcast(
  inputs: readonly (Scalar | Matrix)[],
  calculate: (values: readonly Scalar[]) => Scalar,
  { book }: Context,
): Matrix {
  let height = 1;
  let width = 1;
  for (const input of inputs) {
    if (!(input instanceof Matrix)) continue;
    height = Math.max(height, input.height);
    width = Math.max(width, input.width);
  }
  book.budget.spendBlock("a block of it", height, width);
  const rows: Scalar[][] = [];
  for (let row = 0; row < height; row += 1) {
    const cells: Scalar[] = new Array(width);
    for (let column = 0; column < width; column += 1) {
      book.budget.call();
      cells[column] = calculate(inputs.map((input) => sharedAt(input, row, column)));
    }
    rows.push(cells);
  }
  return new Matrix(rows);
}
