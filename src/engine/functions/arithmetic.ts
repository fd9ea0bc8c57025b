import { fn } from "../formula/function-spec.js";
import { power } from "../formula/operators.js";
import { ERROR } from "../formula/values.js";
import { numbersOf, sum } from "./each-value.js";
import { clean } from "./rounding.js";
import { logGamma } from "./special-functions.js";

/** Above this a whole number is no longer exact. */
const LARGEST_WHOLE = 2 ** 53;

function whole(number: number, least = 0): number {
  const cut = Math.trunc(number);
  if (cut < least || cut >= LARGEST_WHOLE) throw ERROR.number;
  return cut;
}

export function factorial(number: number): number {
  const last = Math.trunc(number);
  if (last < 0 || last > 170) throw ERROR.number;
  let product = 1;
  for (let factor = 2; factor <= last; factor += 1) product *= factor;
  return product;
}

function doubleFactorial(number: number): number {
  const last = Math.trunc(number);
  if (last < 0 || last > 300) throw ERROR.number;
  let product = 1;
  for (let factor = last; factor > 1; factor -= 2) product *= factor;
  return product;
}

/** The ways to choose some of a number, exact while a number can be. */
export function combinations(all: number, chosen: number): number {
  const fewer = Math.min(chosen, all - chosen);
  if (fewer < 0) throw ERROR.number;
  if (fewer > 1_000) return Math.exp(logGamma(all + 1) - logGamma(chosen + 1) - logGamma(all - chosen + 1));
  let ways = 1;
  for (let step = 1; step <= fewer; step += 1) {
    ways = (ways * (all - fewer + step)) / step;
    if (ways < LARGEST_WHOLE) ways = Math.round(ways);
  }
  return ways;
}

function permutations(all: number, chosen: number): number {
  if (chosen > all || chosen > 100_000) throw ERROR.number;
  let ways = 1;
  for (let step = 0; step < chosen && Number.isFinite(ways); step += 1) ways *= all - step;
  return ways;
}

function divisor(one: number, other: number): number {
  let [larger, smaller] = [one, other];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}

function modulo(number: number, by: number): number {
  if (by === 0) throw ERROR.division;
  const steps = number / by;
  if (Math.abs(steps) >= LARGEST_WHOLE) throw ERROR.number;
  const rest = number - by * Math.floor(clean(steps));
  return Math.abs(rest) < Math.abs(by) * 1e-15 ? 0 : rest;
}

function logarithm(number: number, base: number): number {
  if (number <= 0 || base <= 0) throw ERROR.number;
  if (base === 1) throw ERROR.division;
  if (base === 10) return Math.log10(number);
  return base === 2 ? Math.log2(number) : clean(Math.log(number) / Math.log(base));
}

const positive = (number: number) => {
  if (number <= 0) throw ERROR.number;
  return number;
};

const notNegative = (number: number) => {
  if (number < 0) throw ERROR.number;
  return number;
};

export const ARITHMETIC = [
  fn("ABS", "n", (_, number) => Math.abs(number)),
  fn("SIGN", "n", (_, number) => Math.sign(number)),
  fn("SQRT", "n", (_, number) => Math.sqrt(notNegative(number))),
  fn("SQRTPI", "n", (_, number) => Math.sqrt(notNegative(number) * Math.PI)),
  fn("EXP", "n", (_, number) => Math.exp(number)),
  fn("LN", "n", (_, number) => Math.log(positive(number))),
  fn("LOG10", "n", (_, number) => Math.log10(positive(number))),
  fn("LOG", "n n?", (_, number, base = 10) => logarithm(number, base)),
  fn("POWER", "n n", (_, base, exponent) => power(base, exponent)),
  fn("MOD", "n n", (_, number, by) => modulo(number, by)),
  fn("QUOTIENT", "n n", (_, number, by) => {
    if (by === 0) throw ERROR.division;
    return Math.trunc(number / by);
  }),
  fn("PI", "", () => Math.PI),
  fn("FACT", "n", (_, number) => factorial(number)),
  fn("FACTDOUBLE", "n", (_, number) => doubleFactorial(number)),
  fn("COMBIN", "n n", (_, all, chosen) => combinations(whole(all), whole(chosen))),
  fn("COMBINA", "n n", (_, all, chosen) => {
    const [n, k] = [whole(all), whole(chosen)];
    if (n === 0 && k === 0) return 1;
    return combinations(n + k - 1, k);
  }),
  fn("PERMUT", "n n", (_, all, chosen) => permutations(whole(all), whole(chosen))),
  fn("PERMUTATIONA", "n n", (_, all, chosen) => whole(all) ** whole(chosen)),
  fn("MULTINOMIAL", "r*", (context, ...given) => {
    const numbers = numbersOf(given, context).map((number) => whole(number));
    let total = 0;
    let ways = 1;
    for (const number of numbers) {
      total += number;
      ways *= combinations(total, number);
    }
    return ways;
  }),
  fn("GCD", "r*", (context, ...given) =>
    numbersOf(given, context)
      .map((number) => whole(number))
      .reduce(divisor, 0),
  ),
  fn("LCM", "r*", (context, ...given) => {
    const numbers = numbersOf(given, context).map((number) => whole(number));
    if (numbers.includes(0)) return 0;
    return numbers.reduce((one, other) => (one / divisor(one, other)) * other, 1);
  }),
  fn("SERIESSUM", "n n n r", (context, x, first, step, coefficients) =>
    sum(numbersOf([coefficients], context).map((coefficient, index) => coefficient * x ** (first + index * step))),
  ),
  fn("DELTA", "n n?", (_, one, other = 0) => (one === other ? 1 : 0)),
  fn("GESTEP", "n n?", (_, number, step = 0) => (number >= step ? 1 : 0)),
  fn("RAND", "", () => Math.random()),
  fn("RANDBETWEEN", "n n", (_, least, most) => {
    const [from, to] = [Math.ceil(least), Math.floor(most)];
    if (from > to) throw ERROR.number;
    return from + Math.floor(Math.random() * (to - from + 1));
  }),
];
