export { CELL_ERROR_CODES, CellError, type CellErrorCode } from "./cell-error.js";
export type { CellFunctionDeclaration, CellFunctionParameter } from "./declaration.js";
export type { CellResult } from "./guard.js";
export type { ParameterRole } from "./parameter-role.js";
export {
  callSignature,
  cellFunctions,
  FUNCTION_SPELLINGS,
  NAMESPACE,
  storedName,
  typedName,
} from "./registry.js";
export { sizeExpression } from "./written/size-expression.js";
export { SizeProblem } from "./written/size-tokens.js";
export { isWrittenSize, type WrittenSize, writtenLength, writtenSize } from "./written/written-size.js";
