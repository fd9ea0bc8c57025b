/** A sheet of which some formulas were not entered again, and why. */
export interface UnrepairedSheet {
  readonly sheet: string;
  /** How many of its formulas. */
  readonly count: number;
  readonly message: string;
}

/** What a repair did. */
export interface RepairOutcome {
  readonly repaired: number;
  readonly unrepaired: readonly UnrepairedSheet[];
}
