import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Value } from "../formula/values.js";
import { flat, mean, numbersAndWordsOf, numbersOf, sum } from "./each-value.js";

function squares(numbers: readonly number[]): number {
  const average = mean(numbers);
  return sum(numbers.map((number) => (number - average) ** 2));
}

/** Sum of squares over the count less `less`. */
export function variance(numbers: readonly number[], less: 0 | 1): number {
  if (numbers.length <= less) throw ERROR.division;
  return squares(numbers) / (numbers.length - less);
}

const deviation = (numbers: readonly number[], less: 0 | 1) => Math.sqrt(variance(numbers, less));

function moment(numbers: readonly number[], power: number, spread: number): number {
  if (spread === 0) throw ERROR.division;
  const average = mean(numbers);
  return sum(numbers.map((number) => ((number - average) / spread) ** power));
}

function skew(numbers: readonly number[]): number {
  const n = numbers.length;
  if (n < 3) throw ERROR.division;
  return (moment(numbers, 3, deviation(numbers, 1)) * n) / ((n - 1) * (n - 2));
}

function kurtosis(numbers: readonly number[]): number {
  const n = numbers.length;
  if (n < 4) throw ERROR.division;
  const fourth = moment(numbers, 4, deviation(numbers, 1));
  return (fourth * n * (n + 1)) / ((n - 1) * (n - 2) * (n - 3)) - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3));
}

const sorted = (numbers: readonly number[]) => Float64Array.from(numbers).sort();

function median(numbers: readonly number[]): number {
  if (numbers.length === 0) throw ERROR.number;
  const order = sorted(numbers);
  const middle = (order.length - 1) / 2;
  return ((order[Math.floor(middle)] as number) + (order[Math.ceil(middle)] as number)) / 2;
}

/** The numbers that come most often, in the order in which they first come. */
function modes(numbers: readonly number[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const number of numbers) counts.set(number, (counts.get(number) ?? 0) + 1);
  const most = Math.max(0, ...counts.values());
  if (most < 2) throw ERROR.missing;
  return [...counts].filter(([, count]) => count === most).map(([number]) => number);
}

function trimmed(numbers: readonly number[], share: number): number {
  if (share < 0 || share >= 1 || numbers.length === 0) throw ERROR.number;
  const each = Math.floor((numbers.length * share) / 2);
  return mean([...sorted(numbers)].slice(each, numbers.length - each));
}

function geometric(numbers: readonly number[]): number {
  if (numbers.length === 0 || numbers.some((number) => number <= 0)) throw ERROR.number;
  return Math.exp(sum(numbers.map(Math.log)) / numbers.length);
}

function harmonic(numbers: readonly number[]): number {
  if (numbers.length === 0 || numbers.some((number) => number <= 0)) throw ERROR.number;
  return numbers.length / sum(numbers.map((number) => 1 / number));
}

function frequency(data: Value, limits: Value, context: Context) {
  const bounds = numbersOf([limits], context);
  const order = bounds.map((bound, index) => ({ bound, index })).sort((one, other) => one.bound - other.bound);
  const counts = new Array<number>(bounds.length + 1).fill(0);
  for (const number of numbersOf([data], context)) {
    const found = order.find(({ bound }) => number <= bound);
    const index = found?.index ?? bounds.length;
    counts[index] = (counts[index] ?? 0) + 1;
  }
  context.book.budget.spend(counts.length);
  return counts.map((count) => [count]);
}

function probability(values: Value, shares: Value, least: number, most: number, context: Context): number {
  const [xs, ps] = [flat(values, context), flat(shares, context)];
  if (xs.length !== ps.length) throw ERROR.missing;
  const numbers = numbersOf([shares], context);
  if (numbers.some((share) => share < 0 || share > 1) || Math.abs(sum(numbers) - 1) > 1e-7) throw ERROR.number;
  let total = 0;
  xs.forEach((x, index) => {
    const share = ps[index];
    if (typeof x === "number" && typeof share === "number" && x >= least && x <= most) total += share;
  });
  return total;
}

type OfNumbers = (numbers: readonly number[]) => number;

const ofNumbers: Readonly<Record<string, OfNumbers>> = {
  "VAR.S": (numbers) => variance(numbers, 1),
  "VAR.P": (numbers) => variance(numbers, 0),
  "STDEV.S": (numbers) => deviation(numbers, 1),
  "STDEV.P": (numbers) => deviation(numbers, 0),
  VAR: (numbers) => variance(numbers, 1),
  VARP: (numbers) => variance(numbers, 0),
  STDEV: (numbers) => deviation(numbers, 1),
  STDEVP: (numbers) => deviation(numbers, 0),
  DEVSQ: (numbers) => {
    if (numbers.length === 0) throw ERROR.number;
    return squares(numbers);
  },
  AVEDEV: (numbers) => {
    if (numbers.length === 0) throw ERROR.number;
    const average = mean(numbers);
    return mean(numbers.map((number) => Math.abs(number - average)));
  },
  MEDIAN: median,
  GEOMEAN: geometric,
  HARMEAN: harmonic,
  SKEW: skew,
  "SKEW.P": (numbers) => {
    if (numbers.length < 3) throw ERROR.division;
    return moment(numbers, 3, deviation(numbers, 0)) / numbers.length;
  },
  KURT: kurtosis,
  MODE: (numbers) => modes(numbers)[0] as number,
  "MODE.SNGL": (numbers) => modes(numbers)[0] as number,
};

const ofNumbersAndWords: Readonly<Record<string, OfNumbers>> = {
  VARA: (numbers) => variance(numbers, 1),
  VARPA: (numbers) => variance(numbers, 0),
  STDEVA: (numbers) => deviation(numbers, 1),
  STDEVPA: (numbers) => deviation(numbers, 0),
};

export const STATISTICS = [
  ...Object.entries(ofNumbers).map(([name, calculate]) =>
    fn(name, "r*", (context, ...given) => calculate(numbersOf(given, context))),
  ),
  ...Object.entries(ofNumbersAndWords).map(([name, calculate]) =>
    fn(name, "r*", (context, ...given) => calculate(numbersAndWordsOf(given, context))),
  ),
  fn("MODE.MULT", "r*", (context, ...given) => modes(numbersOf(given, context)).map((number) => [number])),
  fn("TRIMMEAN", "r n", (context, data, share) => trimmed(numbersOf([data], context), share)),
  fn("FREQUENCY", "a a", (context, data, limits) => frequency(data, limits, context)),
  fn("PROB", "a a n n?", (context, values, shares, least, most = least) =>
    probability(values, shares, least, most, context),
  ),
  fn("STANDARDIZE", "n n n", (_, x, average, spread) => {
    if (spread <= 0) throw ERROR.number;
    return (x - average) / spread;
  }),
  fn("FISHER", "n", (_, x) => {
    if (Math.abs(x) >= 1) throw ERROR.number;
    return Math.atanh(x);
  }),
  fn("FISHERINV", "n", (_, y) => Math.tanh(y)),
];
