import { FUNCTION_SPELLINGS } from "../../cells/index.js";
import { readSheet, scanFormula, type Workbook } from "../../xlsx/index.js";
import { withOwnCalls } from "./own-calls.js";

const TYPED = new Set(FUNCTION_SPELLINGS.map(({ typed }) => typed.toUpperCase()));

/** Whether a formula of a file calls a function of ours in a spelling that Excel does not read from a file. */
export function isMisspelled(formula: string): boolean {
  if (!/VANE\.|\]!_xldudf_VANE_/i.test(formula)) return false;
  const isTyped = scanFormula(formula).some(({ kind, text }) => kind === "name" && TYPED.has(text.toUpperCase()));
  return isTyped || withOwnCalls(formula) !== formula;
}

/** Whether some formula of a workbook is: a look at the stored texts alone. */
export function holdsMisspelled(workbook: Workbook): boolean {
  return workbook.sheets.some(
    ({ kind, name }) =>
      kind === "worksheet" && readSheet(workbook, name).cells.formulas.some(({ text }) => isMisspelled(text)),
  );
}
