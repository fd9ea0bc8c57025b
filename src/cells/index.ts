export { CELL_ERROR_CODES, CellError, type CellErrorCode } from "./cell-error.js";
export type { CellResult } from "./guard.js";
export {
  type CellFunctionDeclaration,
  type CellFunctionParameter,
  cellFunctions,
  NAMESPACE,
  storedName,
  typedName,
} from "./registry.js";
