import { CellError, type CellErrorCode, type CellFunctionDeclaration } from "../../cells/index.js";
import { argumentFrom, excelError, resultFor, type SentResult } from "./sent-values.js";

/** A cell function as Excel's runtime calls it: its arguments, then a record about the call itself. */
export type ExcelFunction = (...sent: unknown[]) => SentResult | SentResult[][];

/** Thrown, these would arrive as #VALUE!; handed back as a value they arrive as they are. */
const NEVER_THROWN: readonly CellErrorCode[] = ["#REF!", "#NAME?"];

function failed(thrown: unknown): CellError {
  if (thrown instanceof CellError) return thrown;
  return new CellError("#VALUE!", `This formula failed unexpectedly (${String(thrown)}). Please report it.`);
}

/**
 * Returns a cell function in the form that Excel's runtime calls.
 *
 * The runtime hands over every declared argument (null where omitted) and one record more, about the call; the
 * functions know nothing of it. An error is thrown as Excel's own, since any other loses its message.
 */
export function excelFunction({ parameters, call, returnsBlock }: CellFunctionDeclaration): ExcelFunction {
  return (...sent) => {
    const given = sent.slice(0, -1);
    try {
      return resultFor(call(...parameters.map((_, index) => argumentFrom(given[index]))));
    } catch (thrown) {
      const error = failed(thrown);
      if (!NEVER_THROWN.includes(error.code)) throw excelError(error);
      return returnsBlock ? [[excelError(error)]] : excelError(error);
    }
  };
}

/** Registers every cell function of the registry with Excel's runtime. */
export function associateFunctions(declarations: readonly CellFunctionDeclaration[]): void {
  for (const declaration of declarations) CustomFunctions.associate(declaration.id, excelFunction(declaration));
}
