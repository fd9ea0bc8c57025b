import { cellFunctions } from "../../cells/index.js";
import { storedFormula as storedSpelling } from "../xlsx/formula/spelling.js";

const IDS = cellFunctions.map(({ id }) => id);

/** Returns a formula of a plan as a file stores it: without its equals sign, each call under its stored name. */
export function storedFormula(typed: string): string {
  return storedSpelling(typed.replace(/^=/, ""), IDS);
}
