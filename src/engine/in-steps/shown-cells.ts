import type { EvaluatedCell, Model } from "@odoo/o-spreadsheet";
import { partOf } from "./library-inside.js";

/** So many cells are gone through between two steps. */
const CELLS_A_STEP = 1_000;

/** The library's results, by sheet, column and row. */
interface Results {
  readonly evaluator: {
    readonly evaluatedCells: { readonly map: Record<string, Record<number, Record<number, EvaluatedCell>>> };
  };
}

/**
 * Goes through the cells of a sheet that hold something or have a format, in steps: the library makes a list of them all
 * first. What changes between two steps may be met or not.
 */
export function* shownCells(
  model: Model,
  sheetId: string,
  visit: (cell: EvaluatedCell, col: number, row: number) => void,
): Generator<undefined, void> {
  const { evaluator } = partOf<Results>(model, "coreViewsPluginRegistry", "evaluation");
  const columns = evaluator.evaluatedCells.map[sheetId] ?? {};
  let count = 0;
  for (const col in columns) {
    const column = columns[col] ?? {};
    for (const row in column) {
      const cell = column[row];
      if (cell !== undefined) visit(cell, Number(col), Number(row));
      count += 1;
      if (count % CELLS_A_STEP === 0) yield;
    }
  }
}
