import { CellError } from "../../cells/index.js";
import type { Reference } from "../../xlsx/index.js";
import { WORKBOOK_LIMITS } from "../../xlsx/index.js";
import type { Context } from "./context.js";
import type { ReferenceOperator } from "./syntax.js";
import { Areas, type CellGrid, ERROR, Range, type Scalar, type Value } from "./values.js";

type Ends = Reference["rows"];

/**
 * Where an end of a reference lies. A name's reference that goes beyond the edge of the sheet goes on from the other one: the
 * cell to the left is kept as XFD1, as seen from A1.
 *
 * @source A practice of spreadsheet programs without a published source: LibreOffice and Gnumeric read names so
 */
export function placeOf({ isFixed, offset }: NonNullable<Ends>[number], own: number, all: number): number {
  if (isFixed) return offset;
  const place = offset + own;
  return place >= 1 && place <= all ? place : ((((place - 1) % all) + all) % all) + 1;
}

function ends(pair: Ends, own: number, all: number): readonly [number, number] {
  if (pair === null) return [1, all];
  const one = placeOf(pair[0], own, all);
  const other = placeOf(pair[1], own, all);
  return one <= other ? [one, other] : [other, one];
}

/** Returns the cells that a reference means in the formula of one cell. */
export function rangeOn(grid: CellGrid, { rows, columns }: Reference, row: number, column: number): Range {
  const [firstRow, lastRow] = ends(rows, row, WORKBOOK_LIMITS.rows);
  const [firstColumn, lastColumn] = ends(columns, column, WORKBOOK_LIMITS.columns);
  return new Range(grid, firstRow, firstColumn, lastRow, lastColumn);
}

/** Returns the grids from one sheet to another, both included, in the order of the workbook. */
export function gridsBetween(
  grids: readonly CellGrid[],
  one: CellGrid | undefined,
  other: CellGrid | undefined,
): readonly CellGrid[] | undefined {
  if (one === undefined || other === undefined) return undefined;
  return grids.slice(Math.min(one.index, other.index), Math.max(one.index, other.index) + 1);
}

/** Returns what a reference means where a formula stands. */
export function placed(
  { reference, lastSheet }: { readonly reference: Reference; readonly lastSheet?: string },
  { book, grid, row, column }: Context,
): Value {
  const first = reference.sheet === null ? grid : book.gridNamed(reference.sheet);
  if (lastSheet !== undefined) {
    const grids = gridsBetween(book.grids, first, book.gridNamed(lastSheet));
    if (grids === undefined) return noSheet(reference.sheet);
    return new Areas(
      grids.map((each) => rangeOn(each, reference, row, column)),
      true,
    );
  }
  return first === undefined ? noSheet(reference.sheet) : rangeOn(first, reference, row, column);
}

export function noSheet(sheet: string | null): CellError {
  return new CellError("#REF!", `There is no sheet "${sheet ?? ""}", which the formula names.`);
}

/** The one cell of a block that lies in the formula's row or column. */
export function crossed(range: Range, { row, column }: Context): Scalar {
  if (range.isCell) return range.grid.cellAt(range.firstRow, range.firstColumn);
  if (range.width === 1 && row >= range.firstRow && row <= range.lastRow)
    return range.grid.cellAt(row, range.firstColumn);
  if (range.height === 1 && column >= range.firstColumn && column <= range.lastColumn) {
    return range.grid.cellAt(range.firstRow, column);
  }
  return ERROR.value;
}

/** The blocks of a reference; undefined for what is none. */
export function areasOf(value: Value): readonly Range[] | undefined {
  if (value instanceof Range) return [value];
  return value instanceof Areas ? value.ranges : undefined;
}

/** Returns the block that the formula of a cell fills, `A1#`. */
export function spilledBlock(value: Value, context: Context): Value {
  if (value instanceof CellError) return value;
  if (!(value instanceof Range) || !value.isCell) return ERROR.reference;
  const { grid, firstRow, firstColumn } = value;
  const formula = grid.formulaAt(firstRow, firstColumn);
  if (formula === undefined) return ERROR.reference;
  const fills = formula.fills ?? value;
  const block = new Range(grid, fills.firstRow, fills.firstColumn, fills.lastRow, fills.lastColumn);
  context.book.needCells(block);
  return block;
}

function shared(one: Range, other: Range): Range | undefined {
  if (one.grid !== other.grid) return undefined;
  const firstRow = Math.max(one.firstRow, other.firstRow);
  const lastRow = Math.min(one.lastRow, other.lastRow);
  const firstColumn = Math.max(one.firstColumn, other.firstColumn);
  const lastColumn = Math.min(one.lastColumn, other.lastColumn);
  if (firstRow > lastRow || firstColumn > lastColumn) return undefined;
  return new Range(one.grid, firstRow, firstColumn, lastRow, lastColumn);
}

/** Joins references: the block from one to another, what two share, or both. */
export function joinedBy(operator: ReferenceOperator, left: Value, right: Value, context: Context): Value {
  if (left instanceof CellError) return left;
  if (right instanceof CellError) return right;
  const ones = areasOf(left);
  const others = areasOf(right);
  if (ones === undefined || others === undefined) return ERROR.value;
  if (operator === ",") return new Areas([...ones, ...others], false);
  if (operator === " ") {
    const common = ones.flatMap((one) => others.flatMap((other) => shared(one, other) ?? []));
    if (common.length === 0) return ERROR.none;
    return common.length === 1 ? common[0] : new Areas(common, false);
  }
  const all = [...ones, ...others];
  const [first] = all;
  if (first === undefined || all.some(({ grid }) => grid !== first.grid)) return ERROR.value;
  const block = new Range(
    first.grid,
    Math.min(...all.map(({ firstRow }) => firstRow)),
    Math.min(...all.map(({ firstColumn }) => firstColumn)),
    Math.max(...all.map(({ lastRow }) => lastRow)),
    Math.max(...all.map(({ lastColumn }) => lastColumn)),
  );
  context.book.needCells(block);
  return block;
}
