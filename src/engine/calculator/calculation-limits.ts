/**
 * Bounds on what formulas may ask for. No sheet of a job comes near them; a damaged or hostile file could otherwise ask
 * for billions of cells in a few letters. Chosen by us, no published source.
 */
export const CALCULATION_LIMITS = {
  /** Operators and calls of one formula. */
  operations: 1_000,
  /** Brackets within brackets. */
  depth: 200,
  /** Names that stand for formulas, one within the other, and calls of a LAMBDA within itself. */
  nesting: 64,
  /** Cells that a formula reads at once, and cells that a function in it gives back. */
  cells: 2_500_000,
  /** Cells that the formulas of a sheet fill beyond their own. */
  filledCells: 1_000_000,
  /** Cells read and values made by one formula. */
  steps: 20_000_000,
  /** The same for a whole workbook, and for each of its formulas on top. */
  workbookSteps: 150_000_000,
  stepsForEachFormula: 20_000,
  /** Time for one formula: some values take far longer than a step, as a root that is searched for. */
  secondsForOneFormula: 4,
  /** Time for a whole workbook, and for each of its formulas on top. */
  seconds: 20,
  secondsForEachFormula: 0.001,
} as const;

/**
 * What the page calculates at once, while it cannot answer: a call of one function, and all large calls together. A million
 * steps take about 70 ms. Chosen by us, no published source.
 */
export const PAGE_LIMITS = {
  stepsOfCall: 1_000_000,
  stepsAtOnce: 4_000_000,
  /** A call of fewer steps is always made: a sum by a condition over a list of 30,000. */
  stepsOfSmallCall: 100_000,
} as const;
