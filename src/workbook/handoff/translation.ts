/** The arguments of one call as formula text, by the name that the registry gives them; "" where one was left out. */
export interface CallArguments {
  readonly text: (name: string) => string;
  /** Whether the argument is a block of cells and not one value. */
  readonly isBlock: (name: string) => boolean;
}

/** How one cell function is put in a plain formula. */
export type Translation =
  | {
      readonly kind: "plain";
      /** Arguments that may be blocks; with a block elsewhere the result would be one, and becomes its value. */
      readonly blocks: readonly string[];
      /** Gives the formula text, or null where this very call cannot be put plainly. */
      readonly build: (call: CallArguments) => string | null;
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
