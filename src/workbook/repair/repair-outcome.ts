/** A sheet whose formulas were not entered again, and why. */
export interface UnrepairedSheet {
  readonly sheet: string;
  readonly message: string;
}

/** What a repair did. */
export interface RepairOutcome {
  readonly repaired: number;
  readonly unrepaired: readonly UnrepairedSheet[];
}
