import { CELL_ERROR_CODES, FUNCTION_SPELLINGS } from "../../cells/index.js";
import type { CellValue } from "../../workbook/index.js";
import { readableFormula } from "../../xlsx/formula/spelling.js";

/** What Excel shows beside the error codes that every spreadsheet knows, and what it means. */
const PASSING_STATES: Readonly<Record<string, string>> = {
  "#BUSY!": "is still being calculated. Wait a moment.",
  "#GETTING_DATA": "is still being calculated. Wait a moment.",
  "#SPILL!": "has no room for its result. Clear the cells below and beside it.",
};

function errorValue(shown: string, place: string): CellValue {
  const error =
    CELL_ERROR_CODES.find((code) => code === shown) ??
    (shown.startsWith("#GET") || shown === "#BUSY!" ? "#N/A" : "#VALUE!");
  const state = PASSING_STATES[shown] ?? `shows ${shown}. Select it to read why.`;
  return { error, message: `${place} ${state}` };
}

/**
 * Returns what a cell holds.
 *
 * @param value - Excel's value of the cell
 * @param type - Excel's type of that value: "Empty", "Error", "Double" …
 * @param place - The cell's name for messages: `Outlets!C7`
 */
export function cellValue(value: unknown, type: string, place: string): CellValue {
  if (type === "Empty") return null;
  if (type === "Error") return errorValue(String(value), place);
  if (typeof value === "number" || typeof value === "boolean") return value;
  return String(value);
}

/**
 * Returns a cell's formula as Excel shows it, null where it holds a value or nothing.
 *
 * Excel reports the value where there is no formula; text that begins with "=" is told from a formula by that.
 */
export function shownFormula(formula: unknown, value: unknown): string | null {
  return typeof formula === "string" && formula.startsWith("=") && formula !== value ? formula : null;
}

/** The same with the functions' names as a person types them. */
export function cellFormula(formula: unknown, value: unknown): string | null {
  const shown = shownFormula(formula, value);
  return shown === null ? null : readableFormula(shown, FUNCTION_SPELLINGS);
}

/** Text that Excel would read as a number, a date, a truth value, an error or a formula unless told not to. */
const READ_OTHERWISE = /\d|^[=+\-@'#]|^\s*(?:true|false)\s*$/i;

/** Returns text as it is typed so that it stays text. */
export function typedText(text: string): string {
  return READ_OTHERWISE.test(text) ? `'${text}` : text;
}

/** Returns what to hand Excel for one cell of an edit: text stays text, and null empties the cell. */
export function typedCell(cell: number | string | boolean | null): number | string | boolean {
  if (cell === null) return "";
  return typeof cell === "string" && !cell.startsWith("=") ? typedText(cell) : cell;
}
