import { CellError } from "../../cells/index.js";
import { toMatrix, toText } from "../formula/coerce.js";
import { isSameText } from "../formula/compare.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { criterion } from "./criterion.js";
import { mean, sum } from "./each-value.js";
import { variance } from "./statistics.js";

type Row = readonly Scalar[];

const rowsOf = (value: Value, { book }: Context) => toMatrix(value, (cells) => book.budget.spend(cells)).rows;

/** A field by its heading or its number from 1. */
function fieldOf(heads: Row, field: Scalar): number {
  if (field instanceof CellError) throw field;
  const place = typeof field === "number" ? Math.trunc(field) - 1 : headed(heads, toText(field));
  if (place < 0 || place >= heads.length) throw ERROR.value;
  return place;
}

function headed(heads: Row, name: string): number {
  return heads.findIndex((head) => head !== null && !(head instanceof CellError) && isSameText(toText(head), name));
}

/** A text alone asks for what begins with it, as a database's criteria have it. */
function asked(given: Scalar): Scalar {
  return typeof given === "string" && given !== "" && !/^[<>=]/.test(given) ? `${given}*` : given;
}

/** The values of a field in the rows that meet the criteria: all conditions of a row of them, or those of another. */
function found(data: Value, field: Scalar, criteria: Value, context: Context): Scalar[] {
  const [heads = [], ...rows] = rowsOf(data, context);
  const [wantedHeads = [], ...wanted] = rowsOf(criteria, context);
  const { budget } = context.book;
  budget.spend(heads.length * wantedHeads.length);
  const places = wantedHeads.map((head) => (head === null ? -1 : headed(heads, toText(head))));
  const conditions = wanted.map((row) =>
    row.flatMap((given, index) => {
      const at = places[index] ?? -1;
      return given === null || at < 0 ? [] : [{ at, meets: criterion(asked(given), context) }];
    }),
  );
  budget.spend(rows.length * conditions.reduce((count, all) => count + Math.max(all.length, 1), 0));
  const met = rows.filter((row) => conditions.some((all) => all.every(({ at, meets }) => meets(row[at] ?? null))));
  if (field === null) return met.map((row) => row.find((value) => value !== null) ?? null);
  const place = fieldOf(heads, field);
  return met.map((row) => row[place] ?? null);
}

function numbersIn(values: readonly Scalar[]): number[] {
  return values.flatMap((value) => {
    if (value instanceof CellError) throw value;
    return typeof value === "number" ? [value] : [];
  });
}

const best = (numbers: readonly number[], choose: (one: number, other: number) => number) =>
  numbers.length === 0 ? 0 : numbers.reduce((one, other) => choose(one, other));

const ofNumbers: Readonly<Record<string, (numbers: readonly number[]) => number>> = {
  DSUM: sum,
  DAVERAGE: mean,
  DMAX: (numbers) => best(numbers, Math.max),
  DMIN: (numbers) => best(numbers, Math.min),
  DPRODUCT: (numbers) => (numbers.length === 0 ? 0 : numbers.reduce((total, number) => total * number, 1)),
  DSTDEV: (numbers) => Math.sqrt(variance(numbers, 1)),
  DSTDEVP: (numbers) => Math.sqrt(variance(numbers, 0)),
  DVAR: (numbers) => variance(numbers, 1),
  DVARP: (numbers) => variance(numbers, 0),
  DCOUNT: (numbers) => numbers.length,
};

export const DATABASE = [
  ...Object.entries(ofNumbers).map(([name, calculate]) =>
    fn(name, "r v r", (context, data, field, criteria) => calculate(numbersIn(found(data, field, criteria, context)))),
  ),
  fn(
    "DCOUNTA",
    "r v r",
    (context, data, field, criteria) => found(data, field, criteria, context).filter((value) => value !== null).length,
  ),
  fn("DGET", "r v r", (context, data, field, criteria) => {
    const values = found(data, field, criteria, context);
    if (values.length === 0) throw ERROR.value;
    if (values.length > 1) throw ERROR.number;
    return values[0] ?? 0;
  }),
];
