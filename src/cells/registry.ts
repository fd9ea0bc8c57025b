import type { CellFunctionDeclaration } from "./declaration.js";
import { declarations } from "./functions.generated.js";

/** The namespace under which every host offers the functions. */
export const NAMESPACE = "VANE";

/** Every cell function, by id. */
export const cellFunctions: readonly CellFunctionDeclaration[] = declarations;

/** Returns the name that a person types: `VANE.AIRFLOW.FACE`. */
export function typedName({ id }: Pick<CellFunctionDeclaration, "id">): string {
  return `${NAMESPACE}.${id}`;
}

/** Returns the name under which Excel stores the call in a file: `_xldudf_VANE_AIRFLOW_FACE`. */
export function storedName({ id }: Pick<CellFunctionDeclaration, "id">): string {
  return `_xldudf_${NAMESPACE}_${id.replaceAll(".", "_")}`;
}

/** Both spellings of every function's name. */
export const FUNCTION_SPELLINGS: readonly { readonly typed: string; readonly stored: string }[] = cellFunctions.map(
  (declaration) => ({ typed: typedName(declaration), stored: storedName(declaration) }),
);

/** Returns how a call is typed: `VANE.AIRFLOW(velocity, freeArea, [taken], [units])`. */
export function callSignature(declaration: {
  readonly id: string;
  readonly parameters: readonly { readonly name: string; readonly optional?: boolean }[];
}): string {
  const names = declaration.parameters.map(({ name, optional }) => (optional === true ? `[${name}]` : name));
  return `${typedName(declaration)}(${names.join(", ")})`;
}
