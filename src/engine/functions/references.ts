import { CellError } from "../../cells/index.js";
import { columnLetters, parseRange, WORKBOOK_LIMITS } from "../../xlsx/index.js";
import { BeyondLimitError } from "../formula/budget.js";
import { toText } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { FormulaFault } from "../formula/parse-formula.js";
import { areasOf } from "../formula/place-reference.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "../formula/values.js";

function rangeOf(value: Value): Range {
  if (value instanceof Range) return value;
  if (value instanceof CellError) throw value;
  if (value instanceof Areas && value.ranges.length === 1) return value.ranges[0] as Range;
  throw ERROR.value;
}

function within(range: Range): Range {
  const isThere =
    range.firstRow >= 1 &&
    range.firstColumn >= 1 &&
    range.lastRow <= WORKBOOK_LIMITS.rows &&
    range.lastColumn <= WORKBOOK_LIMITS.columns;
  if (!isThere) throw ERROR.reference;
  return range;
}

function offset(
  context: Context,
  from: Value,
  down: number,
  across: number,
  height: number | undefined,
  width: number | undefined,
): Range {
  const range = rangeOf(from);
  const [tall, wide] = [Math.trunc(height ?? range.height), Math.trunc(width ?? range.width)];
  if (tall === 0 || wide === 0) throw ERROR.reference;
  if (tall < 0 || wide < 0) throw ERROR.value;
  const row = range.firstRow + Math.trunc(down);
  const column = range.firstColumn + Math.trunc(across);
  const moved = within(new Range(range.grid, row, column, row + tall - 1, column + wide - 1));
  context.book.needCells(moved);
  return moved;
}

/** The address of a cell in the way of R1C1: `R3C[-1]` as seen from the formula's own cell. */
function fromRowColumn(text: string, { row, column }: Context): string {
  const one = (part: string): string => {
    const [, fixedRow, movedRow, fixedColumn, movedColumn] =
      /^R(?:(\d+)|\[(-?\d+)\])?C(?:(\d+)|\[(-?\d+)\])?$/i.exec(part) ?? [];
    if (!/^R/i.test(part)) throw ERROR.reference;
    const atRow = fixedRow === undefined ? row + Number(movedRow ?? 0) : Number(fixedRow);
    const atColumn = fixedColumn === undefined ? column + Number(movedColumn ?? 0) : Number(fixedColumn);
    if (atRow < 1 || atColumn < 1 || atColumn > WORKBOOK_LIMITS.columns) throw ERROR.reference;
    return `${columnLetters(atColumn)}${atRow}`;
  };
  const at = text.lastIndexOf("!") + 1;
  return text.slice(0, at) + text.slice(at).split(":").map(one).join(":");
}

/** Reads a text as a reference or a name. */
function read(text: string, context: Context) {
  try {
    return context.book.compileText(text, context);
  } catch (thrown) {
    if (thrown instanceof FormulaFault) throw ERROR.reference;
    throw thrown;
  }
}

function indirect(context: Context, text: string, isA1: boolean): Value {
  const spelled = isA1 ? text.trim() : fromRowColumn(text.trim(), context);
  if (spelled === "") throw ERROR.reference;
  const value = read(spelled, context).evaluate(context);
  const areas = areasOf(value);
  if (areas === undefined) throw ERROR.reference;
  for (const area of areas) context.book.needCells(area);
  return value;
}

/** ROW and COLUMN: of a block every number it goes through. */
function places(value: Value, context: Context, isRow: boolean): Scalar | Scalar[][] {
  if (value === undefined) return isRow ? context.row : context.column;
  const range = rangeOf(value);
  const length = isRow ? range.height : range.width;
  const first = isRow ? range.firstRow : range.firstColumn;
  if (length === 1) return first;
  context.book.budget.spendBlock(isRow ? "ROW" : "COLUMN", length, 1);
  const numbers = Array.from({ length }, (_, index) => first + index);
  return isRow ? numbers.map((number) => [number]) : [numbers];
}

function size(value: Value, isRow: boolean): number {
  if (value instanceof CellError) throw value;
  if (value instanceof Range || value instanceof Matrix) return isRow ? value.height : value.width;
  if (value instanceof Areas || value instanceof Lambda) {
    const [only] = value instanceof Areas ? value.ranges : [];
    if (only === undefined || (value instanceof Areas && value.ranges.length > 1)) throw ERROR.reference;
    return isRow ? only.height : only.width;
  }
  return 1;
}

/**
 * ADDRESS. The ways 5 to 8 are 1 to 4 once more.
 *
 * @source Results that Excel stored, in functions.xls among the samples of Gnumeric 1.12.55, for the ways 5 to 8
 */
function address(row: number, column: number, kind: number, isA1: boolean, sheet: string | undefined): string {
  const [atRow, atColumn, given] = [row, column, kind].map(Math.trunc) as [number, number, number];
  const way = given > 4 ? given - 4 : given;
  if (
    way < 1 ||
    way > 4 ||
    atRow < 1 ||
    atColumn < 1 ||
    atRow > WORKBOOK_LIMITS.rows ||
    atColumn > WORKBOOK_LIMITS.columns
  )
    throw ERROR.value;
  const [fixedRow, fixedColumn] = [way === 1 || way === 2, way === 1 || way === 3];
  const cell = isA1
    ? `${fixedColumn ? "$" : ""}${columnLetters(atColumn)}${fixedRow ? "$" : ""}${atRow}`
    : `R${fixedRow ? atRow : `[${atRow}]`}C${fixedColumn ? atColumn : `[${atColumn}]`}`;
  if (sheet === undefined) return cell;
  const isPlain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) && parseRange(sheet) === undefined;
  return `${isPlain || sheet === "" ? sheet : `'${sheet.replaceAll("'", "''")}'`}!${cell}`;
}

function sheetNumber(value: Value, context: Context): number {
  if (value === undefined) return context.grid.index + 1;
  if (value instanceof Range) return value.grid.index + 1;
  if (value instanceof Areas) return (value.ranges[0] as Range).grid.index + 1;
  if (value instanceof CellError) throw value;
  const name = value instanceof Matrix ? value.at(0, 0) : (value as Scalar);
  if (name instanceof CellError) throw name;
  const grid = context.book.gridNamed(toText(name));
  if (grid === undefined) throw ERROR.missing;
  return grid.index + 1;
}

function sheetCount(value: Value, context: Context): number {
  if (value === undefined) return context.book.grids.length;
  const areas = areasOf(value);
  if (areas === undefined) throw ERROR.reference;
  return new Set(areas.map(({ grid }) => grid.index)).size;
}

/** What CELL is asked of a cell's look, its width or the file, which nobody here knows. */
const LOOKS = new Set(["color", "filename", "format", "parentheses", "prefix", "protect", "width"]);

/** What CELL tells that needs no look of the cell. */
function cellInformation(context: Context, kind: string, value: Value): Scalar {
  const range =
    value === undefined
      ? new Range(context.grid, context.row, context.column, context.row, context.column)
      : rangeOf(value);
  const content = range.at(0, 0);
  if (LOOKS.has(kind.toLowerCase())) throw new BeyondLimitError(`it asks CELL for "${kind}"`);
  switch (kind.toLowerCase()) {
    case "row":
      return range.firstRow;
    case "col":
      return range.firstColumn;
    case "address":
      return `${range.grid === context.grid ? "" : `${address(1, 1, 1, true, range.grid.name).split("!")[0]}!`}${address(range.firstRow, range.firstColumn, 1, true, undefined)}`;
    case "contents":
      return content ?? 0;
    case "type":
      return content === null ? "b" : typeof content === "string" ? "l" : "v";
    default:
      throw ERROR.value;
  }
}

export const REFERENCES = [
  fn("OFFSET", "r n n n~ n~", (context, from, down, across, height, width) =>
    offset(context, from, down, across, height, width),
  ),
  fn("INDIRECT", "t b?", (context, text, isA1 = true) => indirect(context, text, isA1)),
  fn("ROW", "r?", (context, value) => places(value, context, true)),
  fn("COLUMN", "r?", (context, value) => places(value, context, false)),
  fn("ROWS", "r", (_, value) => size(value, true)),
  fn("COLUMNS", "r", (_, value) => size(value, false)),
  fn("AREAS", "r", (_, value) => {
    const areas = areasOf(value);
    if (areas === undefined) throw value instanceof CellError ? value : ERROR.value;
    return areas.length;
  }),
  fn("ADDRESS", "n n n~ b~ t~", (_, row, column, kind = 1, isA1 = true, sheet) =>
    address(row, column, kind, isA1, sheet),
  ),
  fn("SHEET", "r?", (context, value) => sheetNumber(value, context)),
  fn("SHEETS", "r?", (context, value) => sheetCount(value, context)),
  fn("ISFORMULA", "r", (_, value) => {
    const { grid, firstRow, firstColumn } = rangeOf(value);
    return grid.formulaAt(firstRow, firstColumn) !== undefined;
  }),
  fn("CELL", "t r?", (context, kind, value) => cellInformation(context, kind, value)),
  fn("HYPERLINK", "v v~", (_, link, shown = link) => shown),
];
