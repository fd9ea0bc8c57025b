import { helpers } from "@odoo/o-spreadsheet";
import { CELL_ERROR_CODES, CellError, type CellErrorCode, type CellResult } from "../cells/index.js";

/** A cell as the library hands it to a function and takes it back. */
export interface EngineCell {
  readonly value: number | string | boolean | null;
  readonly message?: string;
}

/** One cell or a block of columns; undefined where the argument was omitted. */
export type EngineArgument = EngineCell | undefined | readonly (readonly (EngineCell | undefined)[])[];

function isBlock(argument: EngineArgument): argument is readonly (readonly (EngineCell | undefined)[])[] {
  return Array.isArray(argument);
}

/** Returns the code as Excel knows it; what only the library has (a cycle, a blocked spill) is a wrong input to a call. */
function excelCode(code: string): CellErrorCode {
  return CELL_ERROR_CODES.find((known) => known === code) ?? "#VALUE!";
}

function givenValue(cell: EngineCell | undefined): unknown {
  const value = cell?.value ?? null;
  if (typeof value === "string" && helpers.isEvaluationError(value)) {
    return new CellError(excelCode(value), cell?.message ?? value);
  }
  return value;
}

/** Turns the library's columns into rows; a blank cell in a block is 0, as Excel has it. */
function givenRows(columns: readonly (readonly (EngineCell | undefined)[])[]): unknown[][] {
  const height = columns[0]?.length ?? 0;
  return Array.from({ length: height }, (_, row) => columns.map((column) => givenValue(column[row]) ?? 0));
}

/**
 * Returns an argument as Excel would send it.
 *
 * A block arrives as rows with blanks as 0, an omitted argument as null, a single blank cell as null, a cell in error
 * as a CellError.
 */
export function toExcelArgument(argument: EngineArgument, wantsBlock: boolean): unknown {
  if (argument === undefined) return null;
  if (isBlock(argument)) return wantsBlock ? givenRows(argument) : givenValue(argument[0]?.[0]);
  return wantsBlock ? [[givenValue(argument) ?? 0]] : givenValue(argument);
}

function shownCell(result: CellResult): EngineCell {
  return result instanceof CellError ? { value: result.code, message: result.message } : { value: result };
}

/** Returns a function's result as the library shows it: a block spills, its errors stay in their own cells. */
export function toEngineResult(result: CellResult | CellResult[][]): EngineCell | EngineCell[][] {
  if (!Array.isArray(result)) return shownCell(result);
  const width = result[0]?.length ?? 0;
  return Array.from({ length: width }, (_, column) => result.map((row) => shownCell(row[column] ?? "")));
}
