import { CellError } from "../../cells/index.js";
import { CALCULATION_LIMITS } from "../calculator/calculation-limits.js";
import { BeyondLimitError } from "./budget.js";
import { numberInText } from "./text-to-number.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "./values.js";

/** Digits that a spreadsheet program shows of a number. */
const SHOWN_DIGITS = 15;

/** Returns a value as a number: a blank is 0, TRUE 1, a text the number that it holds. @throws {CellError} */
export function toNumber(value: Scalar): number {
  if (typeof value === "number") return value;
  if (value === null) return 0;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value instanceof CellError) throw value;
  const number = numberInText(value);
  if (number !== undefined) return number;
  throw new CellError(
    "#VALUE!",
    value === "" ? "There is an empty text where a number belongs." : `"${value.slice(0, 40)}" is not a number.`,
  );
}

/** Spells a number as a cell shows it that has no format: up to 15 digits. */
export function numberAsText(number: number): string {
  const shown = Number(number.toPrecision(SHOWN_DIGITS));
  const size = Math.abs(shown);
  if (size !== 0 && (size >= 1e20 || size < 1e-9)) {
    const [digits = "", power = ""] = shown.toExponential().split("e");
    const exponent = Number(power);
    return `${digits}E${exponent < 0 ? "-" : "+"}${String(Math.abs(exponent)).padStart(2, "0")}`;
  }
  const text = String(shown);
  if (!text.includes("e")) return text;
  return shown.toFixed(20).replace(/\.?0+$/, "");
}

/** Returns a value as text; a blank is empty. @throws {CellError} */
export function toText(value: Scalar): string {
  if (typeof value === "string") return value;
  if (value === null) return "";
  if (typeof value === "number") return numberAsText(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  throw value;
}

/** Returns a value as a truth value: 0 and a blank are false. @throws {CellError} */
export function toBoolean(value: Scalar): boolean {
  if (typeof value === "boolean") return value;
  if (typeof value === "number") return value !== 0;
  if (value === null) return false;
  if (value instanceof CellError) throw value;
  const word = value.toUpperCase();
  if (word === "TRUE" || word === "FALSE") return word === "TRUE";
  throw new CellError("#VALUE!", `"${value.slice(0, 40)}" is neither true nor false.`);
}

/** Returns the values of a block as rows; of whole columns and rows those down to the last cell in use. */
export function toMatrix(value: Value, spend: (cells: number) => void): Matrix {
  if (value instanceof Matrix) return value;
  if (value instanceof Range) {
    const lastRow = Math.max(value.firstRow, value.lastRow > 100_000 ? value.usedLastRow : value.lastRow);
    const lastColumn = Math.max(value.firstColumn, value.lastColumn > 1_000 ? value.usedLastColumn : value.lastColumn);
    const width = lastColumn - value.firstColumn + 1;
    const cells = (lastRow - value.firstRow + 1) * width;
    if (cells > CALCULATION_LIMITS.cells)
      throw new BeyondLimitError(`it reads more than ${CALCULATION_LIMITS.cells} cells`);
    spend(cells);
    const rows: Scalar[][] = [];
    for (let row = value.firstRow; row <= lastRow; row += 1) {
      const scalars: Scalar[] = new Array(width);
      for (let index = 0; index < width; index += 1) scalars[index] = value.grid.cellAt(row, value.firstColumn + index);
      rows.push(scalars);
    }
    return new Matrix(rows);
  }
  if (value instanceof Areas) return new Matrix([[ERROR.value]]);
  if (value instanceof Lambda) return new Matrix([[ERROR.value]]);
  return new Matrix([[value ?? null]]);
}
