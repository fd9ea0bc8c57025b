import type { Reference } from "../../xlsx/index.js";
import type { Budget } from "./budget.js";
import type { CellGrid, Range, Value } from "./values.js";

/** A workbook, as formulas see it. */
export interface Book {
  readonly grids: readonly CellGrid[];
  /** The grid of a sheet by its name, in either case. */
  gridNamed(name: string): CellGrid | undefined;
  /** What a defined name stands for on a sheet; undefined where there is none. */
  nameOn(sheet: number, name: string): Compiled | undefined;
  /** Makes sure that all cells of a block that was found while calculating are calculated themselves. */
  needCells(block: Range): void;
  /** Makes a formula ready whose text was made by a formula. @throws {FormulaFault} Where it cannot be read */
  compileText(text: string, context: Context): Compiled;
  readonly budget: Budget;
  /** What was learnt of large blocks, so that it is not looked for again. */
  readonly memory: Map<string, unknown>;
}

/** A name that LET or LAMBDA gives to a value. */
export interface Scope {
  readonly name: string;
  readonly value: Value;
  readonly outer: Scope | undefined;
}

/** Where a formula stands while it is calculated. */
export interface Context {
  readonly book: Book;
  /** The grid of its own sheet. */
  readonly grid: CellGrid;
  readonly row: number;
  readonly column: number;
  readonly scope: Scope | undefined;
  /** How many names and LAMBDA calls it is inside of. */
  readonly nesting: number;
}

export type Evaluate = (context: Context) => Value;

/** A formula made ready, for every cell in which it reads the same. */
export interface Compiled {
  readonly evaluate: Evaluate;
  /** The references that stand in it, those of functions that make references not among them. */
  readonly references: readonly { readonly reference: Reference; readonly lastSheet?: string }[];
  /** Names in it that may be defined ones. */
  readonly names: readonly string[];
  /** Functions that it calls and that are neither known nor made by it. */
  readonly unknownCalls: readonly string[];
  readonly callsVane: boolean;
  /** Whether it makes references while it is calculated, so that nobody knows before what it reads. */
  readonly makesReferences: boolean;
  readonly isSubtotal: boolean;
}
