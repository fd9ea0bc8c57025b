import { type CELL_ERROR_CODES, CellError } from "../../cells/index.js";
import { toNumber } from "../formula/coerce.js";
import { fn } from "../formula/function-spec.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar } from "../formula/values.js";

/** The numbers of errors, as ERROR.TYPE gives them. */
const ERROR_NUMBERS: Readonly<Record<(typeof CELL_ERROR_CODES)[number], number>> = {
  "#NULL!": 1,
  "#DIV/0!": 2,
  "#VALUE!": 3,
  "#REF!": 4,
  "#NAME?": 5,
  "#NUM!": 6,
  "#N/A": 7,
};

const tests: Readonly<Record<string, (value: Scalar) => boolean>> = {
  ISBLANK: (value) => value === null,
  ISERROR: (value) => value instanceof CellError,
  ISERR: (value) => value instanceof CellError && value.code !== "#N/A",
  ISNA: (value) => value instanceof CellError && value.code === "#N/A",
  ISLOGICAL: (value) => typeof value === "boolean",
  ISNUMBER: (value) => typeof value === "number",
  ISTEXT: (value) => typeof value === "string",
  ISNONTEXT: (value) => typeof value !== "string",
};

/** The number of a value; a truth value is none to ISEVEN. */
function whole(value: Scalar): number {
  if (typeof value === "boolean") throw ERROR.value;
  return Math.abs(Math.trunc(toNumber(value)));
}

function typeNumber(value: unknown): number {
  if (value instanceof Matrix) return 64;
  if (value instanceof Lambda) return 128;
  if (value instanceof CellError) return 16;
  if (typeof value === "string") return 2;
  return typeof value === "boolean" ? 4 : 1;
}

function asNumber(value: Scalar): Scalar {
  if (typeof value === "number" || value instanceof CellError) return value;
  return typeof value === "boolean" ? Number(value) : 0;
}

export const INFORMATION = [
  ...Object.entries(tests).map(([name, test]) => fn(name, "e", (_, value) => test(value))),
  fn("ISREF", "r", (_, value) => value instanceof Range || value instanceof Areas),
  fn("ISEVEN", "v", (_, value) => whole(value) % 2 === 0),
  fn("ISODD", "v", (_, value) => whole(value) % 2 === 1),
  fn("NA", "", () => ERROR.missing),
  fn("N", "r", (_, value) => {
    if (value instanceof Matrix) return value.rows.map((row) => row.map(asNumber));
    if (value instanceof Range) return asNumber(value.at(0, 0));
    return value instanceof Areas || value instanceof Lambda ? ERROR.value : asNumber(value ?? null);
  }),
  fn("TYPE", "r", (_, value) => {
    if (value instanceof Areas) return 16;
    if (value instanceof Range) return value.isCell ? typeNumber(value.at(0, 0)) : 64;
    return typeNumber(value);
  }),
  fn("ERROR.TYPE", "e", (_, value) => (value instanceof CellError ? ERROR_NUMBERS[value.code] : ERROR.missing)),
];
