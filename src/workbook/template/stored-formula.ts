import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import { storedFormula as storedSpelling } from "../../xlsx/formula/spelling.js";

/** Returns a formula of a plan as a file stores it: without its equals sign, each call under its stored name. */
export function storedFormula(typed: string): string {
  return storedSpelling(typed.replace(/^=/, ""), FUNCTION_SPELLINGS);
}
