import { pageSpelling } from "./from-xlsx/page-spelling.js";

/** A power somewhere behind a sign: the library binds the sign weaker, spreadsheet programs bind it tighter. */
const SIGN_AND_POWER = /-[\s\S]*\^/;

/**
 * Returns a formula as a person types it in the spelling by which the library calculates what a spreadsheet program does:
 * `=-A1^2` is the square of −A1. Anything else stays as it was typed.
 *
 * @param row - Of the cell, from 1
 * @param column - Of the cell, from 1
 */
export function typedFormula(content: string, row: number, column: number): string {
  if (!content.startsWith("=") || !SIGN_AND_POWER.test(content)) return content;
  const spelled = pageSpelling(content.slice(1), { row, column, sheets: [] }, true);
  return "text" in spelled ? `=${spelled.text}` : content;
}
