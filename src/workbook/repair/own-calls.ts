import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import { callsFunction, type FormulaToken, scanFormula } from "../../xlsx/index.js";

function isOurs(token: FormulaToken | undefined): boolean {
  return token?.kind === "name" && callsFunction(`${token.text}(`, FUNCTION_SPELLINGS);
}

/**
 * Takes away that a call of ours is one of another workbook, as Excel writes it after add-ins have changed.
 *
 * @example
 * withOwnCalls("[2]!_xldudf_VANE_OPENING_RECT(A1,B1)") // => "_xldudf_VANE_OPENING_RECT(A1,B1)"
 */
export function withOwnCalls(formula: string): string {
  if (!formula.includes("]")) return formula;
  const tokens = scanFormula(formula);
  const isForeign = (index: number) =>
    tokens[index]?.kind === "bracket" &&
    /^\[\d+\]$/.test(tokens[index]?.text ?? "") &&
    tokens[index + 1]?.text === "!" &&
    isOurs(tokens[index + 2]);
  return tokens
    .filter((_, index) => !isForeign(index) && !isForeign(index - 1))
    .map(({ text }) => text)
    .join("");
}
