import type { CellFunctionDeclaration } from "./declaration.js";
import { declarations } from "./functions.generated.js";

/** The namespace under which every host offers the functions. */
export const NAMESPACE = "VANE";

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
