import { type CellFunctionDeclaration, type CellResult, cellFunctions, typedName } from "../../cells/index.js";
import type { Context } from "../formula/context.js";
import { asOneCell, excelRows } from "../formula/excel-arguments.js";
import type { CalledFunction, ParameterSpec } from "../formula/function-spec.js";
import { Matrix, type Value } from "../formula/values.js";

/** Hands arguments over as Excel does: all of them, null for those left out, blanks in a block as 0. */
function call(
  { parameters, call: calculate }: CellFunctionDeclaration,
  context: Context,
  given: readonly Value[],
): Value {
  const values = parameters.map(({ isBlock }, index) => {
    const value = given[index];
    if (value === undefined) return null;
    return isBlock ? excelRows(value, context) : asOneCell(value, context);
  });
  const result: CellResult | CellResult[][] = calculate(...values);
  return Array.isArray(result) ? new Matrix(result) : result;
}

function described(declaration: CellFunctionDeclaration): CalledFunction {
  const { parameters } = declaration;
  return {
    name: typedName(declaration).toUpperCase(),
    least: parameters.filter(({ optional }) => !optional).length,
    most: parameters.length,
    parameters: parameters.map(({ isBlock }): ParameterSpec => ({ kind: isBlock ? "a" : "e", emptyIs: "notGiven" })),
    repeating: 0,
    call: (context: Context, ...given: never[]) => call(declaration, context, given),
  };
}

/** Our own functions. */
export const VANE: readonly CalledFunction[] = cellFunctions.map(described);
