import { helpers } from "@odoo/o-spreadsheet";
import { callSignature, cellFunctions, typedName } from "../cells/index.js";
import { createModel } from "./create-model.js";
import { engineSpelling } from "./engine-spelling.js";
import type { EngineCell } from "./exchange.js";
import { quietly } from "./prepare-library.js";
import { type GivenContent, typedContent } from "./typed-content.js";

/** One cell of a result; an error with its code and what to do about it. */
export type ResultCell = number | string | boolean | { readonly error: string; readonly message: string };

/** What a formula gives: one cell, or a block of rows that spills. */
export type FormulaResult =
  | { readonly kind: "value"; readonly value: number | string | boolean }
  | { readonly kind: "error"; readonly code: string; readonly message: string }
  | { readonly kind: "block"; readonly rows: readonly (readonly ResultCell[])[] };

const SHEET = { id: "sheet1", name: "Sheet1", colNumber: 100, rowNumber: 1000 };

/**
 * Calculates one spreadsheet formula, array constants included.
 *
 * @param formula - With or without its equals sign
 * @param cells - What stands on the sheet around it, by address; a text that begins with "=" is a formula
 */
export function evaluateFormula(formula: string, cells: Readonly<Record<string, GivenContent>> = {}): FormulaResult {
  const contents = Object.entries(cells).map(([address, content]) => [address, typedContent(content)]);
  const model = createModel({ sheets: [{ ...SHEET, cells: Object.fromEntries(contents) }] });
  const typed = formula.trimStart().startsWith("=") ? formula.trim() : `=${formula.trim()}`;
  const result = quietly(() => model.getters.evaluateFormulaResult(SHEET.id, engineSpelling(typed)));
  return asResult(result as EngineCell | EngineCell[][]);
}

function asResult(result: EngineCell | EngineCell[][]): FormulaResult {
  if (Array.isArray(result) && (result.length > 1 || (result[0]?.length ?? 0) > 1)) {
    const height = result[0]?.length ?? 0;
    return {
      kind: "block",
      rows: Array.from({ length: height }, (_, row) => result.map((column) => asCell(column[row]))),
    };
  }
  const cell = asCell(Array.isArray(result) ? result[0]?.[0] : result);
  return typeof cell === "object"
    ? { kind: "error", code: cell.error, message: cell.message }
    : { kind: "value", value: cell };
}

function asCell(cell: EngineCell | undefined): ResultCell {
  const value = cell?.value ?? 0;
  if (value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY) {
    return { error: "#NUM!", message: "The result is too large for a cell." };
  }
  if (typeof value !== "string" || !helpers.isEvaluationError(value)) return value;
  return { error: value, message: explained(value, cell?.message ?? "") };
}

/** Says more than the library does where a formula cannot be read at all. */
function explained(code: string, message: string): string {
  if (code !== "#NAME?" || message.startsWith("Unknown function")) return message;
  const miscalled = cellFunctions.find((declaration) => message.includes(` ${typedName(declaration)} function`));
  if (miscalled !== undefined) {
    return `Too few or too many arguments. Write ${callSignature(miscalled)}.`;
  }
  return `The formula cannot be read: ${message.replace(/\.+$/, "")}. Check its names, brackets, commas and quotes.`;
}
