/** The error codes that a cell can show. Excel shows a message only beside `#VALUE!` and `#N/A`. */
export const CELL_ERROR_CODES = ["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#REF!", "#NAME?", "#NULL!"] as const;

export type CellErrorCode = (typeof CELL_ERROR_CODES)[number];

/**
 * What a cell function throws, returns inside a block, or receives from a cell that is itself in error.
 *
 * `#VALUE!` says that an input is wrong, `#N/A` that one is missing; the message names the argument and what to do.
 */
export class CellError extends Error {
  constructor(
    readonly code: CellErrorCode,
    message: string,
  ) {
    super(message);
    this.name = "CellError";
  }
}

/** An input that is there but cannot be used. */
export function wrongInput(message: string): CellError {
  return new CellError("#VALUE!", message);
}

/** An input that the result needs and nobody has given yet. */
export function missingInput(message: string): CellError {
  return new CellError("#N/A", message);
}
