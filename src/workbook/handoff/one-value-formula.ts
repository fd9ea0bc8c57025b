import type { Workbook } from "../../xlsx/index.js";
import { readFormulaTree } from "./formula-tree.js";
import { type FormulaPlace, type Places, placesIn } from "./places.js";
import { isOneValue, sizesIn } from "./sizes.js";

/** Made once for each workbook, and forgotten with it. */
const known = new WeakMap<Workbook, Places>();

/** Whether a formula is known to give one value, whatever its cells hold. */
export function isOneValueFormula(workbook: Workbook, formula: string, place: FormulaPlace): boolean {
  const places = known.get(workbook) ?? placesIn(workbook);
  known.set(workbook, places);
  return isOneValue(sizesIn(places, place).sizeOf(readFormulaTree(formula)));
}
