import type { CellContent } from "../template/sheet-plan.js";

/** What a person has entered, by sheet and address: a content in place of the plan's own. */
export type Entries = Readonly<Record<string, Readonly<Record<string, CellContent>>>>;

/** What a calculated cell shows. */
export interface CalculatedCell {
  readonly value: number | string | boolean;
  /** What an error says; "" elsewhere. */
  readonly message: string;
}

/** The result of every cell that holds a formula, by sheet and address. */
export type CalculatedValues = ReadonlyMap<string, ReadonlyMap<string, CalculatedCell>>;
