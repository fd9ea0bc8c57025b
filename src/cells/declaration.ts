import type { CellResult } from "./guard.js";
import type { ParameterRole } from "./parameter-role.js";

export interface CellFunctionParameter {
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
  /** True where a range is taken whole; false where one cell is meant. */
  readonly isBlock: boolean;
  /** Null where checks have nothing to look at. */
  readonly role: ParameterRole | null;
}

export interface CellFunctionDeclaration {
  /** Without the namespace, dotted: `AIRFLOW.FACE`. */
  readonly id: string;
  readonly description: string;
  readonly parameters: readonly CellFunctionParameter[];
  readonly returnsBlock: boolean;
  /**
   * Calculates. Arguments as Excel sends them: a block as rows of cells with blanks as 0, an omitted argument as null,
   * a cell in error as a CellError. Throws a CellError; never returns null, undefined, NaN or an infinity.
   */
  readonly call: (...values: any[]) => CellResult | CellResult[][];
}

/** A cell function without its words: its id, how many parameters it has, whether it gives a block, and the call. */
export type CellFunctionCall = readonly [
  id: string,
  parameterCount: number,
  returnsBlock: boolean,
  call: CellFunctionDeclaration["call"],
];
