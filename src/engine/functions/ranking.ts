import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Value } from "../formula/values.js";
import { numbersOf } from "./each-value.js";
import { clean } from "./rounding.js";

function ordered(data: Value, context: Context): Float64Array {
  return Float64Array.from(numbersOf([data], context)).sort();
}

/** The value at a place between the first, 0, and the last. */
function between(order: Float64Array, place: number): number {
  const below = Math.floor(place);
  const [low, high] = [order[below] as number, order[Math.min(below + 1, order.length - 1)] as number];
  return low + (high - low) * (place - below);
}

function percentile(order: Float64Array, share: number): number {
  if (order.length === 0 || share < 0 || share > 1) throw ERROR.number;
  return between(order, clean(share * (order.length - 1)));
}

function percentileOutside(order: Float64Array, share: number): number {
  const place = clean(share * (order.length + 1)) - 1;
  if (order.length === 0 || share <= 0 || share >= 1 || place < 0 || place > order.length - 1) throw ERROR.number;
  return between(order, place);
}

function quarter(part: number): number {
  const cut = Math.trunc(part);
  if (cut < 0 || cut > 4) throw ERROR.number;
  return cut / 4;
}

/** How much of the data lies below a value. */
function rankShare(order: Float64Array, x: number, digits: number, isInclusive: boolean): number {
  if (order.length === 0 || Math.trunc(digits) < 1) throw ERROR.number;
  const [first, last] = [order[0] as number, order.at(-1) as number];
  if (x < first || x > last) throw ERROR.missing;
  const below = order.filter((value) => value < x).length;
  const isThere = order[below] === x;
  const [low, high] = [order[below - 1] as number, order[below] as number];
  const place = isThere ? below : below - 1 + (x - low) / (high - low);
  const share = isInclusive ? (order.length === 1 ? 1 : place / (order.length - 1)) : (place + 1) / (order.length + 1);
  const scale = 10 ** Math.trunc(digits);
  return Math.floor(clean(share * scale)) / scale;
}

function nth(order: Float64Array, place: number): number {
  const value = order[place];
  if (value === undefined) throw ERROR.number;
  return value;
}

function rank(x: number, data: Value, order: number, isAverage: boolean, context: Context): number {
  const numbers = numbersOf([data], context);
  const same = numbers.filter((number) => number === x).length;
  if (same === 0) throw ERROR.missing;
  const before = numbers.filter((number) => (order === 0 ? number > x : number < x)).length;
  return before + 1 + (isAverage ? (same - 1) / 2 : 0);
}

export const RANKING = [
  fn("LARGE", "r n", (context, data, place) => {
    const order = ordered(data, context);
    if (place < 1) throw ERROR.number;
    return nth(order, order.length - Math.ceil(place));
  }),
  fn("SMALL", "r n", (context, data, place) => nth(ordered(data, context), Math.trunc(place) - 1)),
  ...["PERCENTILE", "PERCENTILE.INC"].map((name) =>
    fn(name, "r n", (context, data, share) => percentile(ordered(data, context), share)),
  ),
  fn("PERCENTILE.EXC", "r n", (context, data, share) => percentileOutside(ordered(data, context), share)),
  ...["QUARTILE", "QUARTILE.INC"].map((name) =>
    fn(name, "r n", (context, data, part) => percentile(ordered(data, context), quarter(part))),
  ),
  fn("QUARTILE.EXC", "r n", (context, data, part) => percentileOutside(ordered(data, context), quarter(part))),
  ...["PERCENTRANK", "PERCENTRANK.INC"].map((name) =>
    fn(name, "r n n?", (context, data, x, digits = 3) => rankShare(ordered(data, context), x, digits, true)),
  ),
  fn("PERCENTRANK.EXC", "r n n?", (context, data, x, digits = 3) =>
    rankShare(ordered(data, context), x, digits, false),
  ),
  ...["RANK", "RANK.EQ"].map((name) =>
    fn(name, "n r n?", (context, x, data, order = 0) => rank(x, data, order, false, context)),
  ),
  fn("RANK.AVG", "n r n?", (context, x, data, order = 0) => rank(x, data, order, true, context)),
];
