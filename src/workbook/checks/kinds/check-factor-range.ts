import type { CellRange } from "../../../xlsx/index.js";
import { argumentOf, type PlacedFormula, type WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";
import { factorBlocks } from "../support/factor-cells.js";
import { numbersIn } from "../support/readings.js";

function words(factor: number): { readonly problem: string; readonly action: string } {
  if (factor === 0) {
    const problem = "The factor is 0, which counts as not given, so that 0.75 is assumed.";
    return { problem, action: "Type the published factor, or empty the cell to say that it is assumed." };
  }
  if (factor < 0) {
    return {
      problem: `The factor ${shownNumber(factor)} is below 0.`,
      action: "Type the published factor, above 0 and at most 1.",
    };
  }
  const problem = `The factor ${shownNumber(factor)} is above 1, but louvers cannot free more than the whole area.`;
  const action =
    factor > 10 && factor <= 100
      ? `Type it as a ratio, such as ${shownNumber(factor / 100)} for ${shownNumber(factor)} %.`
      : "Type the published factor, at most 1; an effective area is not a factor: divide it by the whole area first.";
  return { problem, action };
}

function draft(factor: number, sheet: number, range: CellRange, formula: PlacedFormula): Draft {
  return { kind: "factor-out-of-range", severity: "error", sheet, range, explains: [formula], ...words(factor) };
}

/** Factors above 1, at 0 or below it. */
export function checkFactorRange(index: WorkbookIndex): readonly Draft[] {
  const inCells = factorBlocks(index).flatMap(({ block, formula }) =>
    numbersIn(index, block).flatMap(({ row, column, value }) => {
      // A formula that gives 0 shows so that there is nothing yet.
      const isQuiet = value === 0 && index.formulaAt(block.sheet, row, column) !== undefined;
      if ((value > 0 && value <= 1) || isQuiet) return [];
      return [draft(value, block.sheet, oneCell(row, column), formula)];
    }),
  );
  const asConstants = index.calls.flatMap((call) => {
    const factor = argumentOf(call, "factor")?.literal;
    if (typeof factor !== "number" || (factor >= 0 && factor <= 1)) return [];
    const { formula } = call;
    return [draft(factor, formula.sheet, oneCell(formula.row, formula.column), formula)];
  });
  return [...inCells, ...asConstants];
}
