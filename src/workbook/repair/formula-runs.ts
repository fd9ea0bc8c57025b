import { formatRange } from "../../xlsx/address.js";
import type { StuckFormula } from "./repair-plan.js";

/** Formulas that stand below one another, to be written at once. */
export interface FormulaRun {
  /** In A1 notation. */
  readonly range: string;
  /** One row each, as a sheet takes them. */
  readonly formulas: readonly (readonly [string])[];
}

/** Joins formulas of one column without a gap, so that a table's column is one write instead of one a row. */
export function formulaRuns(formulas: readonly StuckFormula[]): readonly FormulaRun[] {
  const sorted = [...formulas].sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: StuckFormula[][] = [];
  for (const formula of sorted) {
    const last = runs.at(-1)?.at(-1);
    if (last?.column === formula.column && last.row + 1 === formula.row) runs.at(-1)?.push(formula);
    else runs.push([formula]);
  }
  return runs.map((run) => {
    const { row, column } = run[0] as StuckFormula;
    const range = formatRange({
      firstRow: row,
      firstColumn: column,
      lastRow: row + run.length - 1,
      lastColumn: column,
    });
    return { range, formulas: run.map(({ typed }) => [typed] as const) };
  });
}
