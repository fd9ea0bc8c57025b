/**
 * Bounds on what one formula may ask for. No sheet of a job comes near them; a damaged or hostile file could otherwise ask
 * for billions of cells in a few letters. Chosen by us, no published source.
 */
export const CALCULATION_LIMITS = {
  /** Operators and calls of one formula. */
  operations: 1_000,
  /** Cells that a formula reads, and cells that a function in it gives back. */
  cells: 4_000_000,
  /** Cells that the formulas of a sheet fill beyond their own. */
  filledCells: 1_000_000,
  /** Days or payments that a function goes through one by one; Excel's last day, in the year 9999, is this one. */
  steps: 2_958_465,
} as const;
