import { declarations } from "./functions.generated.js";
import type { CellResult } from "./guard.js";

/** The namespace under which every host offers the functions. */
export const NAMESPACE = "VANE";

export interface CellFunctionParameter {
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
  /** True where a range is taken whole; false where one cell is meant. */
  readonly isBlock: boolean;
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

/** Every cell function, by id. */
export const cellFunctions: readonly CellFunctionDeclaration[] = declarations;

/** Returns the name that a person types: `VANE.AIRFLOW.FACE`. */
export function typedName(declaration: CellFunctionDeclaration): string {
  return `${NAMESPACE}.${declaration.id}`;
}

/** Returns the name under which Excel stores the call in a file: `_xldudf_VANE_AIRFLOW_FACE`. */
export function storedName(declaration: CellFunctionDeclaration): string {
  return `_xldudf_${NAMESPACE}_${declaration.id.replaceAll(".", "_")}`;
}
