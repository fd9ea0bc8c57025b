import { CellError } from "../../cells/index.js";
import { toMatrix } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import type { CalledFunction, Result } from "../formula/function-spec.js";
import { fn } from "../formula/function-spec.js";
import { areasOf } from "../formula/place-reference.js";
import { ERROR, Matrix, type Scalar, type Value } from "../formula/values.js";
import { eachCell } from "./each-value.js";
import { RANKING } from "./ranking.js";
import { STATISTICS } from "./statistics.js";
import { SUMS } from "./sums.js";

/** The functions that a number of SUBTOTAL and AGGREGATE stands for. @source ECMA-376-1:2016, section 18.17.7.316 */
const BY_NUMBER = [
  "AVERAGE",
  "COUNT",
  "COUNTA",
  "MAX",
  "MIN",
  "PRODUCT",
  "STDEV.S",
  "STDEV.P",
  "SUM",
  "VAR.S",
  "VAR.P",
  "MEDIAN",
  "MODE.SNGL",
  "LARGE",
  "SMALL",
  "PERCENTILE.INC",
  "QUARTILE.INC",
  "PERCENTILE.EXC",
  "QUARTILE.EXC",
];

const SUBTOTAL_COUNT = 11;
/** From this number of AGGREGATE on a second argument says which of the values is wanted. */
const FIRST_WITH_PLACE = 14;

const known: ReadonlyMap<string, CalledFunction> = new Map(
  [...SUMS, ...STATISTICS, ...RANKING].map((spec) => [spec.name, spec]),
);

function apply(name: string, context: Context, ...given: readonly unknown[]): Result {
  const { call } = known.get(name) as CalledFunction;
  return (call as (context: Context, ...given: readonly unknown[]) => Result)(context, ...given);
}

interface Leaving {
  readonly hidden: boolean;
  readonly errors: boolean;
  readonly subtotals: boolean;
}

/** The values of references, less what is to be left out; a row that a filter hides always is by SUBTOTAL. */
function valuesOf(given: readonly Value[], leaving: Leaving, leavesFiltered: boolean, context: Context): Matrix {
  const values: Scalar[] = [];
  for (const value of given) {
    const areas = areasOf(value);
    if (areas === undefined) throw value instanceof CellError ? value : ERROR.value;
    for (const area of areas) {
      eachCell(area, context, (scalar, row, column) => {
        const state = area.grid.rowStateAt(row);
        if (state === "filtered" ? leavesFiltered : state === "hidden" && leaving.hidden) return;
        if (leaving.subtotals && area.grid.formulaAt(row, column)?.isSubtotal === true) return;
        if (leaving.errors && scalar instanceof CellError) return;
        if (scalar !== null) values.push(scalar);
      });
    }
  }
  return new Matrix([values]);
}

/** What AGGREGATE leaves out, by its second number from 0 to 7. */
function leavingOf(option: number): Leaving {
  const way = Math.trunc(option);
  if (way < 0 || way > 7) throw ERROR.value;
  return { hidden: way % 2 === 1, errors: way % 4 >= 2, subtotals: way < 4 };
}

function aggregate(context: Context, number: number, option: number, given: readonly Value[]): Result {
  const which = Math.trunc(number);
  const name = BY_NUMBER[which - 1];
  const leaving = leavingOf(option);
  const [first, place] = given;
  if (name === undefined || first === undefined) throw ERROR.value;
  if (which < FIRST_WITH_PLACE) return apply(name, context, valuesOf(given, leaving, leaving.hidden, context));
  if (place === undefined) throw ERROR.value;
  const values =
    areasOf(first) === undefined
      ? withoutErrors(first, leaving, context)
      : valuesOf([first], leaving, leaving.hidden, context);
  const wanted = toMatrix(place, (cells) => context.book.budget.spend(cells)).at(0, 0);
  if (wanted instanceof CellError) throw wanted;
  if (typeof wanted === "string") throw ERROR.value;
  return apply(name, context, values, Number(wanted));
}

function withoutErrors(value: Value, { errors }: Leaving, context: Context): Matrix {
  const all = toMatrix(value, (cells) => context.book.budget.spend(cells)).rows.flat();
  return new Matrix([errors ? all.filter((scalar) => !(scalar instanceof CellError)) : all]);
}

export const SUBTOTALS = [
  fn("SUBTOTAL", "n r*", (context, number, ...given) => {
    const which = Math.trunc(number);
    const leavesHidden = which > 100;
    const name = BY_NUMBER[(leavesHidden ? which - 100 : which) - 1];
    if (name === undefined || (which > SUBTOTAL_COUNT && which <= 100) || which > 100 + SUBTOTAL_COUNT)
      throw ERROR.value;
    const leaving = { hidden: leavesHidden, errors: false, subtotals: true };
    return apply(name, context, valuesOf(given as Value[], leaving, true, context));
  }),
  fn("AGGREGATE", "n n a (a)*", (context, number, option, first, ...rest) =>
    aggregate(context, number, option, [first, ...(rest as Value[])]),
  ),
];
