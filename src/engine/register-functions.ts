import { addFunction, helpers } from "@odoo/o-spreadsheet";
import { CellError, type CellFunctionDeclaration, cellFunctions, NAMESPACE, typedName } from "../cells/index.js";
import { type EngineArgument, type EngineCell, toEngineResult, toExcelArgument } from "./exchange.js";

let isRegistered = false;

/** Offers every cell function in the engine, with its help; call it before the first model is made. */
export function registerFunctions(): void {
  if (isRegistered) return;
  isRegistered = true;
  for (const declaration of cellFunctions) register(declaration);
}

function register(declaration: CellFunctionDeclaration): void {
  const { description, parameters } = declaration;
  addFunction(typedName(declaration), {
    description,
    category: NAMESPACE,
    isExported: true,
    args: parameters.map((parameter) => {
      const types = ["any", parameter.isBlock ? "range<any>" : "", parameter.optional ? "optional" : ""];
      return helpers.arg(
        `${parameter.name} (${types.filter((type) => type !== "").join(", ")})`,
        parameter.description,
      );
    }),
    compute: (...given: unknown[]) => calculate(declaration, given as EngineArgument[]),
  });
}

/** Calls a function as Excel does: with every argument, null for those that were left out. */
function calculate({ parameters, call }: CellFunctionDeclaration, given: readonly EngineArgument[]) {
  try {
    return toEngineResult(call(...parameters.map(({ isBlock }, index) => toExcelArgument(given[index], isBlock))));
  } catch (thrown) {
    return errorCell(thrown);
  }
}

function errorCell(thrown: unknown): EngineCell {
  if (thrown instanceof CellError) return { value: thrown.code, message: thrown.message };
  throw thrown;
}
