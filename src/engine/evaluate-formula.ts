import { CellError, callSignature, cellFunctions, typedName } from "../cells/index.js";
import { cellsOfFormulas } from "./calculator/cells-of-formulas.js";
import { FormulaFault } from "./formula/parse-formula.js";
import type { Scalar } from "./formula/values.js";
import type { GivenContent } from "./typed-content.js";

/** One cell of a result; an error with its code and what to do about it. */
export type ResultCell = number | string | boolean | { readonly error: string; readonly message: string };

/** What a formula gives: one cell, or a block of rows that spills. */
export type FormulaResult =
  | { readonly kind: "value"; readonly value: number | string | boolean }
  | { readonly kind: "error"; readonly code: string; readonly message: string }
  | { readonly kind: "block"; readonly rows: readonly (readonly ResultCell[])[] };

/**
 * Calculates one spreadsheet formula, array constants included.
 *
 * @param formula - With or without its equals sign
 * @param cells - What stands on the sheet around it, by address; a text that begins with "=" is a formula
 */
export function evaluateFormula(formula: string, cells: Readonly<Record<string, GivenContent>> = {}): FormulaResult {
  const text = formula.trim().replace(/^=/, "");
  try {
    const rows = cellsOfFormulas(cells).calculate(text);
    const [first] = rows[0] ?? [];
    if (rows.length > 1 || (rows[0]?.length ?? 0) > 1)
      return { kind: "block", rows: rows.map((row) => row.map(asCell)) };
    const cell = asCell(first ?? null);
    return typeof cell === "object"
      ? { kind: "error", code: cell.error, message: cell.message }
      : { kind: "value", value: cell };
  } catch (thrown) {
    if (thrown instanceof FormulaFault) return { kind: "error", code: thrown.code, message: explained(thrown) };
    throw thrown;
  }
}

function asCell(value: Scalar): ResultCell {
  return value instanceof CellError ? { error: value.code, message: value.message } : (value ?? 0);
}

/** Says more of a formula that cannot be read at all. */
function explained({ message }: FormulaFault): string {
  const [, called] = /^it calls (\S+) with too few or too many arguments$/.exec(message) ?? [];
  const miscalled = cellFunctions.find((declaration) => typedName(declaration) === called);
  if (miscalled !== undefined) return `Too few or too many arguments. Write ${callSignature(miscalled)}.`;
  if (called !== undefined) return `Too few or too many arguments for ${called}.`;
  const [, unknown] = /^it calls (\S+), which is not known here$/.exec(message) ?? [];
  if (unknown !== undefined) return `Unknown function: "${unknown}".`;
  return `The formula cannot be read: ${message}. Check its names, brackets, commas and quotes.`;
}
