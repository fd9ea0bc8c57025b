import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type CoreFunction, coreFunctionsIn } from "../../src/tools/sources/core-functions.js";

/** The repository's own directory. */
export const repository = join(dirname(fileURLToPath(import.meta.url)), "../..");

/** Every function that the door of src/core exports, with its docstring, in the order of their names. */
export function coreFunctions(): readonly CoreFunction[] {
  return coreFunctionsIn(repository);
}
