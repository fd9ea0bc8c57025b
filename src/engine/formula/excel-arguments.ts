import { CellError } from "../../cells/index.js";
import { toMatrix } from "./coerce.js";
import type { Context } from "./context.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "./values.js";

/** A block as Excel hands it to a function of an add-in: rows of values, a blank as 0. */
export function excelRows(value: Value, { book }: Context): unknown[][] {
  if (value instanceof Areas && value.ranges.length === 1) return excelRows(value.ranges[0], { book } as Context);
  if (value instanceof Areas || value instanceof Lambda) return [[ERROR.value]];
  if (value instanceof Matrix || value instanceof Range) {
    return toMatrix(value, (cells) => book.budget.spend(cells)).rows.map((row) => row.map((cell) => cell ?? 0));
  }
  return [[value ?? 0]];
}

/** One cell as Excel hands it over: a blank as null. */
export function asOneCell(value: Value, _context: Context): Scalar {
  if (value instanceof Matrix || value instanceof Range) return value.at(0, 0);
  if (value instanceof Areas || value instanceof Lambda) return ERROR.value;
  return value instanceof CellError ? value : (value ?? null);
}
