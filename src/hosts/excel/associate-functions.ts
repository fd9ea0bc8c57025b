import { CellError, type CellErrorCode } from "../../cells/cell-error.js";
import type { CellFunctionCall } from "../../cells/declaration.js";
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
export function excelFunction([, parameterCount, returnsBlock, call]: CellFunctionCall): ExcelFunction {
  return (...sent) => {
    const given = sent.slice(0, -1);
    try {
      return resultFor(call(...Array.from({ length: parameterCount }, (_, index) => argumentFrom(given[index]))));
    } catch (thrown) {
      const error = failed(thrown);
      if (!NEVER_THROWN.includes(error.code)) throw excelError(error);
      return returnsBlock ? [[excelError(error)]] : excelError(error);
    }
  };
}

/** Registers every cell function of the registry with Excel's runtime. */
export function associateFunctions(calls: readonly CellFunctionCall[]): void {
  for (const call of calls) CustomFunctions.associate(call[0], excelFunction(call));
}
