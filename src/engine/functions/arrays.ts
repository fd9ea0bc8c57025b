import { CellError } from "../../cells/index.js";
import { toBoolean, toMatrix, toNumber } from "../formula/coerce.js";
import { compareScalars } from "../formula/compare.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { flat } from "./each-value.js";

type Rows = readonly (readonly Scalar[])[];

const rowsOf = (value: Value, { book }: Context): Rows => {
  if (value instanceof CellError) throw value;
  return toMatrix(value, (cells) => book.budget.spend(cells)).rows;
};

export const transposed = (rows: Rows): Scalar[][] =>
  Array.from({ length: rows[0]?.length ?? 0 }, (_, column) => rows.map((row) => row[column] ?? null));

function made(
  name: string,
  height: number,
  width: number,
  context: Context,
  at: (row: number, column: number) => Scalar,
): Scalar[][] {
  const [rows, columns] = [Math.trunc(height), Math.trunc(width)];
  if (!(rows >= 1 && columns >= 1)) throw ERROR.value;
  context.book.budget.spendBlock(name, rows, columns);
  return Array.from({ length: rows }, (_, row) => Array.from({ length: columns }, (__, column) => at(row, column)));
}

function filtered(given: Rows, test: Rows, missing: Scalar | undefined): Rows {
  const isTrue = (value: Scalar) => toBoolean(value);
  const isDown = (test[0]?.length ?? 0) === 1 && test.length === given.length;
  let kept: Rows;
  if (isDown) kept = given.filter((_, row) => isTrue(test[row]?.[0] ?? null));
  else if (test.length === 1 && test[0]?.length === given[0]?.length) {
    kept = given.map((row) => row.filter((_, column) => isTrue(test[0]?.[column] ?? null)));
  } else throw ERROR.value;
  if (kept.length > 0 && (kept[0]?.length ?? 0) > 0) return kept;
  if (missing !== undefined) return [[missing]];
  throw new CellError("#VALUE!", "Nothing is left of the block, and no value is given for that.");
}

/** Numbers, then text, then truth values, then errors; blanks last either way. */
function order(one: Scalar, other: Scalar, way: number): number {
  if (one === null || other === null) return Number(one === null) - Number(other === null);
  if (one instanceof CellError || other instanceof CellError)
    return (Number(one instanceof CellError) - Number(other instanceof CellError)) * way;
  return compareScalars(one, other) * way;
}

function wayOf(way: number): number {
  if (way !== 1 && way !== -1) throw ERROR.value;
  return way;
}

function sorted(
  rows: Rows,
  keys: readonly { readonly of: (row: number) => Scalar; readonly way: number }[],
): Scalar[][] {
  const places = rows.map((_, index) => index);
  places.sort((one, other) => {
    for (const { of, way } of keys) {
      const first = order(of(one), of(other), way);
      if (first !== 0) return first;
    }
    return one - other;
  });
  return places.map((place) => [...(rows[place] as readonly Scalar[])]);
}

function sort(context: Context, given: Value, by: Value, ways: Value, isAcross: boolean): Scalar[][] {
  const rows = isAcross ? transposed(rowsOf(given, context)) : rowsOf(given, context);
  const numbersOf = (value: Value) => flat(value, context).map((scalar) => Math.trunc(toNumber(scalar)));
  const columns = by === undefined ? [1] : numbersOf(by);
  const directions = ways === undefined ? [1] : numbersOf(ways);
  const keys = columns.map((column, index) => {
    if (column < 1 || column > (rows[0]?.length ?? 0)) throw ERROR.value;
    return {
      of: (row: number) => rows[row]?.[column - 1] ?? null,
      way: wayOf(directions[Math.min(index, directions.length - 1)] as number),
    };
  });
  const result = sorted(rows, keys);
  return isAcross ? transposed(result) : result;
}

function sortBy(context: Context, given: Value, rest: readonly Value[]): Scalar[][] {
  const rows = rowsOf(given, context);
  const keys: { of: (row: number) => Scalar; way: number }[] = [];
  let isAcross = false;
  for (let index = 0; index < rest.length; index += 2) {
    const key = flat(rest[index], context);
    const by = rowsOf(rest[index], context);
    isAcross = by.length === 1 && (rows.length !== 1 || key.length !== 1);
    if (key.length !== (isAcross ? rows[0]?.length : rows.length)) throw ERROR.value;
    const way = rest[index + 1];
    keys.push({
      of: (place) => key[place] ?? null,
      way: way === undefined ? 1 : wayOf(toNumber(flat(way, context)[0] ?? null)),
    });
  }
  return isAcross ? transposed(sorted(transposed(rows), keys)) : sorted(rows, keys);
}

function unique(rows: Rows, isOnce: boolean, context: Context): Rows {
  const groups = new Map<string, { readonly row: readonly Scalar[]; count: number }>();
  context.book.budget.spend(rows.length * (rows[0]?.length ?? 1));
  for (const row of rows) {
    const key = JSON.stringify(
      row.map((value) =>
        typeof value === "string" ? value.toLowerCase() : value instanceof CellError ? { error: value.code } : [value],
      ),
    );
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { row, count: 1 });
    else known.count += 1;
  }
  const kept = [...groups.values()].filter(({ count }) => !isOnce || count === 1).map(({ row }) => row);
  if (kept.length === 0) throw ERROR.value;
  return kept;
}

/** The places that a number of rows from the front, or, below 0, from the back leaves. */
function cut(length: number, count: number | undefined, isDrop: boolean): readonly [number, number] {
  if (count === undefined) return [0, length];
  const size = Math.min(Math.abs(Math.trunc(count)), length);
  const [from, to] = isDrop
    ? count >= 0
      ? [size, length]
      : [0, length - size]
    : count >= 0
      ? [0, size]
      : [length - size, length];
  if (from >= to) throw new CellError("#VALUE!", "Nothing is left of the block.");
  return [from, to];
}

function part(rows: Rows, height: number | undefined, width: number | undefined, isDrop: boolean): Rows {
  const [top, bottom] = cut(rows.length, height, isDrop);
  const [left, right] = cut(rows[0]?.length ?? 0, width, isDrop);
  return rows.slice(top, bottom).map((row) => row.slice(left, right));
}

function chosen(rows: Rows, wanted: readonly Value[], context: Context): Scalar[][] {
  const places = wanted.flatMap((value) => flat(value, context)).map((value) => Math.trunc(toNumber(value)));
  return places.map((place) => {
    const row = rows.at(place > 0 ? place - 1 : place);
    if (place === 0 || Math.abs(place) > rows.length || row === undefined) throw ERROR.value;
    return [...row];
  });
}

function stacked(blocks: readonly Rows[], context: Context): Scalar[][] {
  const width = Math.max(...blocks.map((rows) => rows[0]?.length ?? 0));
  context.book.budget.spend(width * blocks.reduce((sum, rows) => sum + rows.length, 0));
  return blocks.flatMap((rows) =>
    rows.map((row) => [...row, ...new Array<Scalar>(width - row.length).fill(ERROR.missing)]),
  );
}

/** All values in one line, row by row or column by column; blanks and errors may be passed over. */
function inLine(given: Value, ignored: number, isByColumn: boolean, context: Context): Scalar[] {
  const rows = rowsOf(given, context);
  const values = (isByColumn ? transposed(rows) : rows).flat();
  const kept = values.filter(
    (value) => !(value === null && (ignored & 1) === 1) && !(value instanceof CellError && (ignored & 2) === 2),
  );
  if (kept.length === 0) throw ERROR.value;
  return kept;
}

function wrapped(given: Value, count: number, padding: Scalar, context: Context): Scalar[][] {
  const line = flat(given, context);
  const rows = rowsOf(given, context);
  if (rows.length > 1 && (rows[0]?.length ?? 0) > 1) throw ERROR.value;
  const size = Math.trunc(count);
  if (size < 1) throw ERROR.number;
  if (size > line.length) context.book.budget.spendBlock("a wrapped block", 1, size);
  const width = size;
  const result: Scalar[][] = [];
  for (let at = 0; at < line.length; at += width) {
    const row = line.slice(at, at + width);
    result.push([...row, ...new Array<Scalar>(width - row.length).fill(padding)]);
  }
  return result;
}

export const ARRAYS = [
  fn("TRANSPOSE", "a", (context, given) => transposed(rowsOf(given, context))),
  fn("SEQUENCE", "n~ n~ n~ n~", (context, rows = 1, columns = 1, start = 1, step = 1) =>
    made("SEQUENCE", rows, columns, context, (row, column) => start + step * (row * Math.trunc(columns) + column)),
  ),
  fn("RANDARRAY", "n~ n~ n~ n~ b~", (context, rows = 1, columns = 1, least = 0, most = 1, isWhole = false) => {
    if (least > most) throw ERROR.value;
    const one = () =>
      isWhole ? least + Math.floor(Math.random() * (most - least + 1)) : least + Math.random() * (most - least);
    return made("RANDARRAY", rows, columns, context, one);
  }),
  fn("FILTER", "a a e~", (context, given, test, missing) =>
    filtered(rowsOf(given, context), rowsOf(test, context), missing),
  ),
  fn("SORT", "a r~ r~ b~", (context, given, by, ways, isAcross = false) => sort(context, given, by, ways, isAcross)),
  fn("SORTBY", "a (a)*", (context, given, ...rest) => sortBy(context, given, rest)),
  fn("UNIQUE", "a b~ b~", (context, given, isAcross = false, isOnce = false) => {
    const rows = rowsOf(given, context);
    return isAcross ? transposed(unique(transposed(rows), isOnce, context)) : unique(rows, isOnce, context);
  }),
  fn("TAKE", "a n~ n~", (context, given, rows, columns) => part(rowsOf(given, context), rows, columns, false)),
  fn("DROP", "a n~ n~", (context, given, rows, columns) => part(rowsOf(given, context), rows, columns, true)),
  fn("CHOOSEROWS", "a a*", (context, given, ...wanted) => chosen(rowsOf(given, context), wanted as Value[], context)),
  fn("CHOOSECOLS", "a a*", (context, given, ...wanted) =>
    transposed(chosen(transposed(rowsOf(given, context)), wanted as Value[], context)),
  ),
  fn("VSTACK", "a*", (context, ...given) =>
    stacked(
      given.map((value) => rowsOf(value, context)),
      context,
    ),
  ),
  fn("HSTACK", "a*", (context, ...given) =>
    transposed(
      stacked(
        given.map((value) => transposed(rowsOf(value, context))),
        context,
      ),
    ),
  ),
  fn("TOCOL", "a n~ b~", (context, given, ignored = 0, isByColumn = false) =>
    inLine(given, ignored, isByColumn, context).map((value) => [value]),
  ),
  fn("TOROW", "a n~ b~", (context, given, ignored = 0, isByColumn = false) => [
    inLine(given, ignored, isByColumn, context),
  ]),
  fn("WRAPROWS", "a n e~", (context, given, count, padding = ERROR.missing) => wrapped(given, count, padding, context)),
  fn("WRAPCOLS", "a n e~", (context, given, count, padding = ERROR.missing) =>
    transposed(wrapped(given, count, padding, context)),
  ),
  fn("EXPAND", "a n~ n~ e~", (context, given, height, width, padding = ERROR.missing) => {
    const rows = rowsOf(given, context);
    const [tall, wide] = [Math.trunc(height ?? rows.length), Math.trunc(width ?? rows[0]?.length ?? 0)];
    if (tall < rows.length || wide < (rows[0]?.length ?? 0)) throw ERROR.value;
    return made("EXPAND", tall, wide, context, (row, column) => {
      const value = rows[row]?.[column];
      return value === undefined ? padding : value;
    });
  }),
];
