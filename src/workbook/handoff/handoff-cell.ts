/** A cell that was changed, and which functions it called. */
export interface HandoffCell {
  readonly sheet: string;
  readonly address: string;
  readonly functions: readonly string[];
  /** Why it keeps its value; empty for a cell with a plain formula. */
  readonly reasons: readonly string[];
}
