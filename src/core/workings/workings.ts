/** Units in which workings show their numbers: inch-pound first, then SI. A ratio, a percentage and a count have none. */
export type WorkingUnit =
  | "in"
  | "ft2"
  | "fpm"
  | "cfm"
  | "inWG"
  | "lb/ft3"
  | "mm"
  | "m2"
  | "m/s"
  | "L/s"
  | "Pa"
  | "kg/m3"
  | "s"
  | "%"
  | "ratio";

/** A number, or a list of readings, that a step starts from. */
export interface WorkingInput {
  /** What it is, in words. */
  readonly name: string;
  /** How the expression calls it. */
  readonly symbol: string;
  readonly value: number | readonly number[];
  readonly unit: WorkingUnit;
}

/** One step of a calculation, complete enough to be worked again by hand. */
export interface WorkingStep {
  readonly title: string;
  /** How later steps call the result. */
  readonly symbol: string;
  /**
   * The formula in the syntax of mathjs, over quantities with units: `w * h` of inches is an area in any unit.
   * It is what is shown and what is evaluated; there is no second spelling.
   */
  readonly expression: string;
  readonly inputs: readonly WorkingInput[];
  readonly result: number;
  readonly unit: WorkingUnit;
  readonly source: string;
  /** What stands here because nobody knew it; null where nothing does. */
  readonly assumed: string | null;
}

/** The steps from what was measured to what is shown, in order. */
export type Workings = readonly WorkingStep[];
