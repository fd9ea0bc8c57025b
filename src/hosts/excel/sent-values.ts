import { CELL_ERROR_CODES, CellError, type CellErrorCode } from "../../cells/cell-error.js";

function codeOf(code: string): CellErrorCode {
  return CELL_ERROR_CODES.find((known) => known === code) ?? "#VALUE!";
}

function errorFrom(code: unknown, message: unknown): CellError {
  const shown = typeof code === "string" ? code : "#VALUE!";
  const known = codeOf(shown);
  return new CellError(known, typeof message === "string" && message !== "" ? message : `it shows ${shown}.`);
}

/** A cell whose value is more than a number or a text: Excel sends it as a record that tells its kind. */
interface RichValue {
  readonly type?: unknown;
  readonly basicValue?: unknown;
}

function isRichValue(value: unknown): value is RichValue {
  return typeof value === "object" && value !== null && "type" in value;
}

/** Returns one cell's value as the cell functions take it: an error as a `CellError`, the rest as it is. */
function cellFrom(value: unknown): unknown {
  if (value === undefined) return null;
  if (value instanceof CustomFunctions.Error) return errorFrom(value.code, value.message);
  if (!isRichValue(value)) return value;
  return value.type === "Error" ? errorFrom(value.basicValue, "") : (value.basicValue ?? value);
}

/**
 * Returns an argument that Excel's runtime hands over, as the cell functions take it.
 *
 * Blanks stay as they were sent (0 in a range, null where an argument is omitted): only src/cells decides on them.
 */
export function argumentFrom(sent: unknown): unknown {
  if (!Array.isArray(sent)) return cellFrom(sent);
  return sent.map((row) => (Array.isArray(row) ? row.map(cellFrom) : cellFrom(row)));
}

/** Excel's error value for one of ours, with its code and message. */
export function excelError({ code, message }: CellError): CustomFunctions.Error {
  return new CustomFunctions.Error(code as CustomFunctions.ErrorCode, message);
}

/** What may stand in a cell once it goes back to Excel. */
export type SentResult = number | string | boolean | CustomFunctions.Error;

function cellFor(result: unknown): SentResult {
  if (typeof result === "string" || typeof result === "boolean") return result;
  if (typeof result === "number" && Number.isFinite(result)) return result;
  if (result instanceof CellError) return excelError(result);
  const defect = "This formula gave a value that no cell can show. Please report it with its arguments.";
  return excelError(new CellError("#VALUE!", defect));
}

/** Returns a result as Excel's runtime takes it; whatever would turn into 0 or nonsense there becomes an error. */
export function resultFor(result: unknown): SentResult | SentResult[][] {
  if (!Array.isArray(result)) return cellFor(result);
  return result.map((row) => (Array.isArray(row) ? row.map(cellFor) : [cellFor(row)]));
}
