import { CALCULATION_LIMITS } from "../calculator/calculation-limits.js";

/** Thrown where a formula asks for more than can be had; the message says why it is not calculated, after "it". */
export class BeyondLimitError extends Error {}

const WORKBOOK_SPENT = "the formulas of the workbook take more steps than are allowed here";

const FORMULA_SLOW = `it takes longer than ${CALCULATION_LIMITS.secondsForOneFormula} s`;

/** Steps between two looks at the clock, and as how many of them a call of a function for one value of a block counts. */
const CLOCK_EVERY = 100_000;
const STEPS_OF_A_CALL = 4_000;

/**
 * What all formulas of a workbook may use together, and each of them alone. A step is about one cell read or one value
 * made; text counts by its characters.
 */
export class Budget {
  private left = 0;
  private untilClock = CLOCK_EVERY;
  private readonly endsAt: number;
  private formulaEndsAt = Number.POSITIVE_INFINITY;
  private total: number;

  /** @param stepsOfFormula - What each of the formulas may use */
  constructor(
    formulaCount: number,
    private readonly stepsOfFormula: number = CALCULATION_LIMITS.steps,
  ) {
    this.total = CALCULATION_LIMITS.workbookSteps + formulaCount * CALCULATION_LIMITS.stepsForEachFormula;
    this.endsAt =
      Date.now() + 1000 * (CALCULATION_LIMITS.seconds + formulaCount * CALCULATION_LIMITS.secondsForEachFormula);
  }

  /** Begins a formula. */
  begin(): void {
    this.left = Math.min(this.stepsOfFormula, this.total);
    this.formulaEndsAt = Date.now() + 1000 * CALCULATION_LIMITS.secondsForOneFormula;
  }

  /** How many steps the formula in hand has made. */
  get spent(): number {
    return this.stepsOfFormula - this.left;
  }

  /** Takes steps before they are made. @throws {BeyondLimitError} Where too few are left */
  spend(steps: number): void {
    if (!(steps <= this.left)) {
      // What one formula asks for in vain is not taken from the others.
      const isOfWorkbook = this.left < this.stepsOfFormula && this.left >= this.total;
      const reason = isOfWorkbook ? WORKBOOK_SPENT : `it takes more than ${this.stepsOfFormula} steps`;
      throw new BeyondLimitError(reason);
    }
    this.left -= steps;
    this.total -= steps;
    this.lookAtClock(steps);
  }

  /** Notes that a function is called for one value of a block. @throws {BeyondLimitError} Where time is up */
  call(): void {
    this.lookAtClock(STEPS_OF_A_CALL);
  }

  private lookAtClock(steps: number): void {
    this.untilClock -= steps;
    if (this.untilClock > 0) return;
    this.untilClock = CLOCK_EVERY;
    const now = Date.now();
    if (now > this.endsAt) throw new BeyondLimitError("the workbook takes longer to calculate than is allowed here");
    if (now > this.formulaEndsAt) throw new BeyondLimitError(FORMULA_SLOW);
  }

  /** Takes a block that is about to be made. @throws {BeyondLimitError} Where it is too large */
  spendBlock(name: string, rows: number, columns: number): void {
    const cells = rows * columns;
    if (!(cells <= CALCULATION_LIMITS.cells))
      throw new BeyondLimitError(`${name} would give more than ${CALCULATION_LIMITS.cells} cells`);
    this.spend(cells);
  }
}
