import type { BlockText } from "./block-text.js";

/** The arguments of one call as formula text, by the name that the registry gives them; "" where one was left out. */
export interface CallArguments {
  /** One value; in an array formula a block of them, of which the text is then taken value by value. */
  readonly text: (name: string) => string;
  /** A block that is taken whole. */
  readonly block: (name: string) => BlockText;
  /** Whether the argument is taken value by value from a block, in an array formula. */
  readonly isBlock: (name: string) => boolean;
  /** Whether an argument is the COUNT of the cells of a block, however they are put together. */
  readonly isCountOf: (name: string, block: BlockText) => boolean;
}

/** The arguments of a call that gives a block, asked for one of its cells. */
export interface CellArguments extends CallArguments {
  readonly isGiven: (name: string) => boolean;
  /** One value of a block, counted from 0; "" where the argument was left out. */
  readonly at: (name: string, row: number, column: number) => string;
  /** One row of a block, taken whole. */
  readonly rowOf: (name: string, row: number) => BlockText;
  /** How many rows and columns an argument has. */
  readonly size: (name: string) => { readonly rows: number; readonly columns: number };
  /** The cell that shows another result of the same block; undefined where none does. */
  readonly shown: (row: number, column: number) => string | undefined;
}

/** How one cell function is put in a plain formula. */
export type Translation =
  | {
      readonly kind: "plain";
      /** Arguments that are blocks taken whole; with a block elsewhere the result is one too. */
      readonly blocks: readonly string[];
      /** Gives the formula text, or null where this very call cannot be put plainly. */
      readonly build: (call: CallArguments) => string | null;
    }
  | {
      /** A block of results, each cell of which has a plain formula of its own. */
      readonly kind: "cells";
      /** The argument whose rows the block has. */
      readonly rowsOf: string;
      /** How many columns the block has; "same" for as many as that argument. */
      readonly columns: number | "same";
      readonly build: (call: CellArguments, row: number, column: number) => string | null;
    }
  | {
      readonly kind: "value";
      /** Why no plain formula does. */
      readonly reason: string;
    };

/** A translation of a call that takes single values alone. */
export function ofValues(build: (text: CallArguments["text"]) => string | null): Translation {
  return { kind: "plain", blocks: [], build: ({ text }) => build(text) };
}

/** A translation of a call of which one argument is a block. */
export function ofBlocks(blocks: readonly string[], build: (call: CallArguments) => string | null): Translation {
  return { kind: "plain", blocks, build };
}

/** A call that becomes its value. */
export function valueOnly(reason: string): Translation {
  return { kind: "value", reason };
}
