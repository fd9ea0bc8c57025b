import { CellError } from "../../cells/index.js";
import { toMatrix } from "../formula/coerce.js";
import { compareScalars, isSameNumber, isSameText } from "../formula/compare.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { Areas, ERROR, Matrix, Range, type Scalar, type Value } from "../formula/values.js";
import { firstRowOf } from "./column-index.js";
import { hasWildcard, matchesPattern } from "./criterion.js";

type Block = Range | Matrix;

export function blockOf(value: Value): Block {
  if (value instanceof Range || value instanceof Matrix) return value;
  if (value instanceof CellError) throw value;
  if (value instanceof Areas) {
    const [only] = value.ranges;
    if (value.ranges.length === 1 && only !== undefined) return only;
    throw ERROR.value;
  }
  return new Matrix([[(value ?? null) as Scalar]]);
}

/** A row or a column of values, by place from 0. */
interface Line {
  readonly length: number;
  readonly at: (index: number) => Scalar;
  readonly column: Range | undefined;
}

function lineOf(block: Block, isDown: boolean, index = 0): Line {
  const used =
    block instanceof Range
      ? isDown
        ? block.usedLastRow - block.firstRow + 1
        : block.usedLastColumn - block.firstColumn + 1
      : isDown
        ? block.height
        : block.width;
  return {
    length: Math.max(0, used),
    at: isDown ? (place) => block.at(place, index) : (place) => block.at(index, place),
    column:
      isDown && block instanceof Range
        ? new Range(block.grid, block.firstRow, block.firstColumn + index, block.lastRow, block.firstColumn + index)
        : undefined,
  };
}

export function isEqual(one: Scalar, other: Scalar): boolean {
  if (typeof one === "number") return typeof other === "number" && isSameNumber(one, other);
  if (typeof one === "string") return typeof other === "string" && isSameText(one, other);
  return one === other && one !== null;
}

/** The first place of a value, from the front or the back; -1 for none. */
export function exactPlace(
  wanted: Scalar,
  line: Line,
  isFromBack: boolean,
  usesPattern: boolean,
  context: Context,
): number {
  const sought = wanted === null ? 0 : wanted;
  const isPattern = usesPattern && typeof sought === "string" && hasWildcard(sought);
  if (
    !isFromBack &&
    !isPattern &&
    line.column !== undefined &&
    (typeof sought === "number" || typeof sought === "string")
  ) {
    const known = firstRowOf(line.column, sought, context);
    if (known !== undefined) return known;
  }
  context.book.budget.spend(line.length);
  for (let step = 0; step < line.length; step += 1) {
    const place = isFromBack ? line.length - 1 - step : step;
    const value = line.at(place);
    if (
      isPattern ? typeof value === "string" && matchesPattern(value, sought as string, context) : isEqual(sought, value)
    )
      return place;
  }
  return -1;
}

const kindOf = (value: Scalar) => (value === null ? "blank" : typeof value);

/**
 * The last place, in a line that rises, of a value that is not above the wanted one; -1 for none. Values of another kind
 * are passed over, as a search by halves does; where it meets the wanted value it goes no further than that value goes on.
 *
 * @source Microsoft, MATCH function; for a line out of order, a result that Excel stored, in lookfuns.xls among the samples
 * of Gnumeric 1.12.55
 */
function risingPlace(wanted: Scalar, line: Line, context: Context): number {
  const sought = wanted === null ? 0 : wanted;
  const kind = kindOf(sought);
  let [low, high] = [0, line.length - 1];
  let found = -1;
  while (low <= high) {
    context.book.budget.spend(1);
    const middle = Math.floor((low + high) / 2);
    let place = middle;
    while (place <= high && kindOf(line.at(place)) !== kind) place += 1;
    if (place > high) {
      high = middle - 1;
      continue;
    }
    const order = compareScalars(line.at(place), sought);
    if (order === 0) {
      found = lastAlike(place, line, context);
      if (found - place < MOST_ALIKE) return found;
      low = found + 1;
    } else if (order < 0) {
      found = place;
      low = place + 1;
    } else high = middle - 1;
  }
  return found;
}

/** So many equal values are passed one by one; a longer run is in order, and searched by halves. */
const MOST_ALIKE = 100;

/** The last of the values right behind a place that equal it, as far as they are passed one by one. */
function lastAlike(place: number, line: Line, context: Context): number {
  const value = line.at(place);
  let last = place;
  while (last - place < MOST_ALIKE && last + 1 < line.length && kindOf(line.at(last + 1)) === kindOf(value)) {
    context.book.budget.spend(1);
    if (compareScalars(line.at(last + 1), value) !== 0) break;
    last += 1;
  }
  return last;
}

/** The last place, in a line that falls, of a value that is not below the wanted one. */
function fallingPlace(wanted: Scalar, line: Line, context: Context): number {
  const sought = wanted === null ? 0 : wanted;
  context.book.budget.spend(line.length);
  let found = -1;
  for (let place = 0; place < line.length; place += 1) {
    const value = line.at(place);
    if (kindOf(value) !== kindOf(sought)) continue;
    const order = compareScalars(value, sought);
    if (order < 0) break;
    if (order === 0) return place;
    found = place;
  }
  return found;
}

/** The nearest place below or above the wanted value, in any order; -1 for none. */
function nearestPlace(wanted: Scalar, line: Line, side: -1 | 1, isFromBack: boolean, context: Context): number {
  const sought = wanted === null ? 0 : wanted;
  context.book.budget.spend(line.length);
  let found = -1;
  for (let step = 0; step < line.length; step += 1) {
    const place = isFromBack ? line.length - 1 - step : step;
    const value = line.at(place);
    if (kindOf(value) !== kindOf(sought)) continue;
    const order = compareScalars(value, sought);
    if (order === 0) return place;
    if (order * side < 0) continue;
    if (found < 0 || compareScalars(value, line.at(found)) * side < 0) found = place;
  }
  return found;
}

function match(wanted: Scalar, within: Value, kind: number, context: Context): number {
  const block = blockOf(within);
  if (block.width > 1 && block.height > 1) throw ERROR.missing;
  const line = lineOf(block, block.width === 1);
  const way = Math.sign(kind);
  const place =
    way === 0
      ? exactPlace(wanted, line, false, true, context)
      : way > 0
        ? risingPlace(wanted, line, context)
        : fallingPlace(wanted, line, context);
  if (place < 0) throw ERROR.notFound;
  return place + 1;
}

function lookUpInTable(
  wanted: Scalar,
  table: Value,
  index: number,
  isNear: boolean,
  isDown: boolean,
  context: Context,
): Scalar {
  const block = blockOf(table);
  const place = Math.trunc(index);
  if (place < 1) throw ERROR.value;
  if (place > (isDown ? block.width : block.height)) throw ERROR.reference;
  const line = lineOf(block, isDown);
  const found = isNear ? risingPlace(wanted, line, context) : exactPlace(wanted, line, false, true, context);
  if (found < 0) throw ERROR.notFound;
  return isDown ? block.at(found, place - 1) : block.at(place - 1, found);
}

function lookUp(wanted: Scalar, within: Value, results: Value, context: Context): Scalar {
  const block = blockOf(within);
  const isDown = block.height >= block.width;
  const found = risingPlace(wanted, lineOf(block, isDown), context);
  if (found < 0) throw ERROR.notFound;
  if (results === undefined) return isDown ? block.at(found, block.width - 1) : block.at(block.height - 1, found);
  const other = blockOf(results);
  const isOtherDown = other.height >= other.width;
  if (found >= (isOtherDown ? other.height : other.width)) throw ERROR.notFound;
  return isOtherDown ? other.at(found, 0) : other.at(0, found);
}

function xPlace(wanted: Scalar, within: Block, mode: number, order: number, context: Context): number {
  if (![0, -1, 1, 2].includes(mode) || ![1, -1, 2, -2].includes(order)) throw ERROR.value;
  if (within.width > 1 && within.height > 1) throw ERROR.value;
  const line = lineOf(within, within.width === 1);
  const isFromBack = order === -1;
  if (mode === 0 || mode === 2) return exactPlace(wanted, line, isFromBack, mode === 2, context);
  return nearestPlace(wanted, line, mode as -1 | 1, isFromBack, context);
}

function xLookUp(
  context: Context,
  wanted: Scalar,
  within: Value,
  results: Value,
  missing: Value,
  mode: number,
  order: number,
): Value {
  const block = blockOf(within);
  const other = blockOf(results);
  const isDown = block.width === 1 && (block.height > 1 || other.height === block.height);
  if (isDown ? other.height !== block.height : other.width !== block.width) throw ERROR.value;
  const place = xPlace(wanted, block, Math.trunc(mode), Math.trunc(order), context);
  if (place < 0) return missing === undefined ? ERROR.notFound : missing;
  return isDown ? rowOf(other, place, context) : columnOf(other, place, context);
}

function rowOf(block: Block, row: number, context: Context): Value {
  if (block instanceof Range)
    return new Range(block.grid, block.firstRow + row, block.firstColumn, block.firstRow + row, block.lastColumn);
  return block.width === 1
    ? block.at(row, 0)
    : new Matrix([toMatrix(block, (cells) => context.book.budget.spend(cells)).rows[row] ?? []]);
}

function columnOf(block: Block, column: number, context: Context): Value {
  if (block instanceof Range) {
    return new Range(block.grid, block.firstRow, block.firstColumn + column, block.lastRow, block.firstColumn + column);
  }
  const { rows } = toMatrix(block, (cells) => context.book.budget.spend(cells));
  return rows.length === 1 ? block.at(0, column) : new Matrix(rows.map((row) => [row[column] ?? null]));
}

/** INDEX: one cell, a whole row or column, or all of it; a part of a reference stays one. */
function index(context: Context, given: Value, row: number, column: number | undefined, area: number): Value {
  if (given instanceof CellError) throw given;
  const areas = given instanceof Areas ? given.ranges : [given];
  const which = areas[Math.trunc(area) - 1];
  if (which === undefined) throw ERROR.reference;
  const block = blockOf(which);
  let [atRow, atColumn] = [Math.trunc(row), column === undefined ? undefined : Math.trunc(column)];
  // One number alone counts along a single row, and down a single column.
  if (atColumn === undefined)
    [atRow, atColumn] =
      block.height === 1 && block.width > 1 ? [block.height === 1 ? 1 : 0, atRow] : [atRow, block.width === 1 ? 1 : 0];
  if (atRow < 0 || atColumn < 0) throw ERROR.value;
  if (atRow > block.height || atColumn > block.width) throw ERROR.reference;
  if (atRow > 0 && atColumn > 0) {
    if (!(block instanceof Range)) return block.at(atRow - 1, atColumn - 1);
    const [cellRow, cellColumn] = [block.firstRow + atRow - 1, block.firstColumn + atColumn - 1];
    return new Range(block.grid, cellRow, cellColumn, cellRow, cellColumn);
  }
  if (atRow > 0) return rowOf(block, atRow - 1, context);
  return atColumn > 0 ? columnOf(block, atColumn - 1, context) : block;
}

export const LOOKUP = [
  fn("MATCH", "v r n?", (context, wanted, within, kind = 1) => match(wanted, within, kind, context)),
  fn("VLOOKUP", "v r n b?", (context, wanted, table, place, isNear = true) =>
    lookUpInTable(wanted, table, place, isNear, true, context),
  ),
  fn("HLOOKUP", "v r n b?", (context, wanted, table, place, isNear = true) =>
    lookUpInTable(wanted, table, place, isNear, false, context),
  ),
  fn("LOOKUP", "v a a?", (context, wanted, within, results) => lookUp(wanted, within, results, context)),
  fn("XMATCH", "v a n~ n~", (context, wanted, within, mode = 0, order = 1) => {
    const place = xPlace(wanted, blockOf(within), Math.trunc(mode), Math.trunc(order), context);
    if (place < 0) throw ERROR.notFound;
    return place + 1;
  }),
  fn("XLOOKUP", "v a a r~ n~ n~", (context, wanted, within, results, missing, mode = 0, order = 1) =>
    xLookUp(context, wanted, within, results, missing, mode, order),
  ),
  fn("INDEX", "r n~ n? n~", (context, given, row = 0, column, area = 1) => index(context, given, row, column, area)),
];
