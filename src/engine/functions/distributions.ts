import { CellError } from "../../cells/index.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Value } from "../formula/values.js";
import { combinations } from "./arithmetic.js";
import { flat, mean, numbersOf } from "./each-value.js";
import {
  betaShare,
  errorFunction,
  errorRest,
  gamma,
  gammaRest,
  gammaShare,
  gammaTerm,
  logGamma,
  normalInverse,
  normalShare,
  solve,
  solveAbove,
} from "./special-functions.js";
import { variance } from "./statistics.js";

function needs(isSound: boolean): void {
  if (!isSound) throw ERROR.number;
}

const isShare = (share: number) => share >= 0 && share <= 1;
const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

function normal(x: number, average: number, spread: number, isTotal: boolean): number {
  needs(spread > 0);
  const z = (x - average) / spread;
  return isTotal ? normalShare(z) : density(z) / spread;
}

function normalAt(share: number, average: number, spread: number): number {
  needs(spread > 0 && share > 0 && share < 1);
  return average + spread * normalInverse(share);
}

function logNormal(x: number, average: number, spread: number, isTotal: boolean): number {
  needs(x > 0 && spread > 0);
  const z = (Math.log(x) - average) / spread;
  return isTotal ? normalShare(z) : density(z) / (spread * x);
}

function binomial(successes: number, trials: number, share: number, isTotal: boolean): number {
  const [k, n] = [Math.trunc(successes), Math.trunc(trials)];
  needs(k >= 0 && n >= 0 && k <= n && isShare(share));
  if (isTotal) return k === n ? 1 : share === 0 ? 1 : betaShare(1 - share, n - k, k + 1);
  if (share === 0 || share === 1) return k === share * n ? 1 : 0;
  if (n < 1_000) return combinations(n, k) * share ** k * (1 - share) ** (n - k);
  return Math.exp(
    logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1) + k * Math.log(share) + (n - k) * Math.log1p(-share),
  );
}

function binomialInverse(trials: number, share: number, wanted: number): number {
  const n = Math.trunc(trials);
  needs(n >= 0 && share > 0 && share < 1 && wanted > 0 && wanted < 1);
  let [low, high] = [0, n];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (binomial(middle, n, share, true) >= wanted) high = middle;
    else low = middle + 1;
  }
  return low;
}

function poisson(x: number, average: number, isTotal: boolean): number {
  const k = Math.trunc(x);
  needs(k >= 0 && average >= 0);
  if (average === 0) return isTotal || k === 0 ? 1 : 0;
  return isTotal ? gammaRest(k + 1, average) : gammaTerm(k, average);
}

function negativeBinomial(failures: number, successes: number, share: number, isTotal: boolean): number {
  const [f, s] = [Math.trunc(failures), Math.trunc(successes)];
  needs(f >= 0 && s >= 1 && isShare(share));
  return isTotal ? betaShare(share, s, f + 1) : combinations(f + s - 1, s - 1) * share ** s * (1 - share) ** f;
}

function hypergeometric(found: number, sample: number, marked: number, all: number, isTotal: boolean): number {
  const [k, n, m, N] = [found, sample, marked, all].map(Math.trunc) as [number, number, number, number];
  needs(k >= 0 && n >= 0 && n <= N && m >= 0 && m <= N && k <= n && k <= m && k >= n - N + m);
  const isExact = Math.min(n, N - n) <= 1_000 && Number.isFinite(combinations(N, n));
  const one = (count: number) =>
    count > m || n - count > N - m
      ? 0
      : isExact
        ? (combinations(m, count) * combinations(N - m, n - count)) / combinations(N, n)
        : Math.exp(logWays(m, count) + logWays(N - m, n - count) - logWays(N, n));
  if (!isTotal) return one(k);
  needs(k < 1_000_000);
  let total = 0;
  for (let count = Math.max(0, n - N + m); count <= k; count += 1) total += one(count);
  return total;
}

const logWays = (all: number, chosen: number) => logGamma(all + 1) - logGamma(chosen + 1) - logGamma(all - chosen + 1);

function gammaOf(x: number, a: number, b: number, isTotal: boolean): number {
  needs(x >= 0 && a > 0 && b > 0);
  if (isTotal) return gammaShare(a, x / b);
  if (x === 0) return a === 1 ? 1 / b : a > 1 ? 0 : Number.POSITIVE_INFINITY;
  return Math.exp((a - 1) * Math.log(x / b) - x / b - logGamma(a)) / b;
}

function betaOf(x: number, a: number, b: number, isTotal: boolean, from: number, to: number): number {
  needs(a > 0 && b > 0 && x >= from && x <= to && from !== to);
  const place = (x - from) / (to - from);
  if (isTotal) return betaShare(place, a, b);
  const log = logGamma(a + b) - logGamma(a) - logGamma(b);
  const size = place ** (a - 1) * (1 - place) ** (b - 1);
  return (Math.exp(log) * size) / (to - from);
}

function betaAt(share: number, a: number, b: number, from: number, to: number): number {
  needs(share > 0 && share <= 1 && a > 0 && b > 0 && from < to);
  return from + (to - from) * solve((x) => betaShare(x, a, b), share, 0, 1);
}

const degrees = (freedom: number) => {
  const cut = Math.trunc(freedom);
  needs(cut >= 1 && cut <= 1e10);
  return cut;
};

function studentAbove(t: number, freedom: number): number {
  const half = betaShare(freedom / (freedom + t * t), freedom / 2, 0.5) / 2;
  return t >= 0 ? half : 1 - half;
}

function studentDensity(t: number, n: number): number {
  const log = logGamma((n + 1) / 2) - logGamma(n / 2) - 0.5 * Math.log(n * Math.PI);
  return Math.exp(log - ((n + 1) / 2) * Math.log1p((t * t) / n));
}

/** The t that a share lies beyond on both sides. */
function studentBeyond(share: number, freedom: number): number {
  needs(share > 0 && share <= 1);
  if (share === 1) return 0;
  return solveAbove((t) => -2 * studentAbove(t, freedom), -share, 0);
}

function chiDensity(x: number, n: number): number {
  if (x === 0) return n === 2 ? 0.5 : n > 2 ? 0 : Number.POSITIVE_INFINITY;
  return Math.exp((n / 2 - 1) * Math.log(x) - x / 2 - (n / 2) * Math.LN2 - logGamma(n / 2));
}

const fishersBelow = (x: number, m: number, n: number) => betaShare((m * x) / (m * x + n), m / 2, n / 2);
const fishersAbove = (x: number, m: number, n: number) => betaShare(n / (m * x + n), n / 2, m / 2);

function fishersDensity(x: number, m: number, n: number): number {
  if (x === 0) return m === 2 ? 1 : m > 2 ? 0 : Number.POSITIVE_INFINITY;
  const log = logGamma((m + n) / 2) - logGamma(m / 2) - logGamma(n / 2) + (m / 2) * Math.log(m / n);
  return Math.exp(log + (m / 2 - 1) * Math.log(x) - ((m + n) / 2) * Math.log1p((m * x) / n));
}

function weibull(x: number, a: number, b: number, isTotal: boolean): number {
  needs(x >= 0 && a > 0 && b > 0);
  const size = (x / b) ** a;
  return isTotal ? -Math.expm1(-size) : (a / b) * (x / b) ** (a - 1) * Math.exp(-size);
}

function exponential(x: number, rate: number, isTotal: boolean): number {
  needs(x >= 0 && rate > 0);
  return isTotal ? -Math.expm1(-rate * x) : rate * Math.exp(-rate * x);
}

function chiTest(actual: Value, expected: Value, context: Context): number {
  const [seen, wanted] = [flat(actual, context), flat(expected, context)];
  if (seen.length !== wanted.length || seen.length < 2) throw ERROR.missing;
  const size = actual as { readonly height?: number; readonly width?: number };
  const [rows, columns] = [size.height ?? 1, size.width ?? 1];
  const freedom = rows > 1 && columns > 1 ? (rows - 1) * (columns - 1) : Math.max(rows, columns) - 1;
  for (const value of [...seen, ...wanted]) if (value instanceof CellError) throw value;
  let [total, pairs] = [0, 0];
  seen.forEach((value, index) => {
    const should = wanted[index];
    if (typeof value !== "number" || typeof should !== "number") return;
    if (should === 0) throw ERROR.division;
    total += (value - should) ** 2 / should;
    pairs += 1;
  });
  if (pairs === 0) throw ERROR.division;
  needs(total >= 0);
  return gammaRest(freedom / 2, total / 2);
}

/**
 * The differences of paired readings; a pair of which one is no number is left out.
 *
 * @source Microsoft, T.TEST function; for pairs left out, results that Excel stored, in ttest.xls among the samples of
 * Gnumeric 1.12.55
 */
function gapsOf(one: Value, other: Value, context: Context): readonly number[] {
  const [x, y] = [flat(one, context), flat(other, context)];
  if (x.length !== y.length) throw ERROR.missing;
  return x.flatMap((value, index) => {
    const paired = y[index];
    if (value instanceof CellError) throw value;
    if (paired instanceof CellError) throw paired;
    return typeof value === "number" && typeof paired === "number" ? [value - paired] : [];
  });
}

function studentTest(one: Value, other: Value, sides: number, kind: number, context: Context): number {
  const [tails, type] = [Math.trunc(sides), Math.trunc(kind)];
  needs((tails === 1 || tails === 2) && type >= 1 && type <= 3);
  let [t, freedom] = [0, 0];
  if (type === 1) {
    const gaps = gapsOf(one, other, context);
    freedom = gaps.length - 1;
    t = mean(gaps) / Math.sqrt(variance(gaps, 1) / gaps.length);
  } else {
    const [x, y] = [numbersOf([one], context), numbersOf([other], context)];
    const [a, b] = [variance(x, 1) / x.length, variance(y, 1) / y.length];
    if (type === 2) {
      freedom = x.length + y.length - 2;
      const pooled = ((x.length - 1) * variance(x, 1) + (y.length - 1) * variance(y, 1)) / freedom;
      t = (mean(x) - mean(y)) / Math.sqrt(pooled * (1 / x.length + 1 / y.length));
    } else {
      freedom = (a + b) ** 2 / (a ** 2 / (x.length - 1) + b ** 2 / (y.length - 1));
      t = (mean(x) - mean(y)) / Math.sqrt(a + b);
    }
  }
  if (!Number.isFinite(t)) throw ERROR.division;
  return tails * studentAbove(Math.abs(t), freedom);
}

function variancesTest(one: Value, other: Value, context: Context): number {
  const [x, y] = [numbersOf([one], context), numbersOf([other], context)];
  const [a, b] = [variance(x, 1), variance(y, 1)];
  if (a === 0 || b === 0) throw ERROR.division;
  const above = fishersAbove(a / b, x.length - 1, y.length - 1);
  return 2 * Math.min(above, 1 - above);
}

function normalTest(data: Value, x: number, given: number | undefined, context: Context): number {
  const numbers = numbersOf([data], context);
  const spread = given ?? Math.sqrt(variance(numbers, 1));
  if (spread === 0) throw ERROR.division;
  return 1 - normalShare((mean(numbers) - x) / (spread / Math.sqrt(numbers.length)));
}

/** The same function under several names. */
const named = <Spec>(names: readonly string[], make: (name: string) => Spec): readonly Spec[] => names.map(make);

/** @source Microsoft's function reference; the equations are those of NIST/SEMATECH, e-Handbook of Statistical Methods, 1.3.6.6 */
export const DISTRIBUTIONS = [
  ...named(["NORMDIST", "NORM.DIST"], (name) => fn(name, "n n n b", (_, x, m, s, total) => normal(x, m, s, total))),
  ...named(["NORMINV", "NORM.INV"], (name) => fn(name, "n n n", (_, share, m, s) => normalAt(share, m, s))),
  fn("NORMSDIST", "n", (_, z) => normalShare(z)),
  fn("NORM.S.DIST", "n b", (_, z, total) => (total ? normalShare(z) : density(z))),
  ...named(["NORMSINV", "NORM.S.INV"], (name) => fn(name, "n", (_, share) => normalAt(share, 0, 1))),
  fn("GAUSS", "n", (_, z) => normalShare(z) - 0.5),
  fn("PHI", "n", (_, z) => density(z)),
  fn("LOGNORMDIST", "n n n", (_, x, m, s) => logNormal(x, m, s, true)),
  fn("LOGNORM.DIST", "n n n b", (_, x, m, s, total) => logNormal(x, m, s, total)),
  ...named(["LOGINV", "LOGNORM.INV"], (name) => fn(name, "n n n", (_, share, m, s) => Math.exp(normalAt(share, m, s)))),
  ...named(["BINOMDIST", "BINOM.DIST"], (name) => fn(name, "n n n b", (_, k, n, p, total) => binomial(k, n, p, total))),
  fn("BINOM.DIST.RANGE", "n n n n~", (_, trials, share, least, most = least) => {
    const [n, from, to] = [Math.trunc(trials), Math.trunc(least), Math.trunc(most)];
    needs(n >= 0 && isShare(share) && from >= 0 && from <= to && to <= n);
    if (from === to) return binomial(from, n, share, false);
    return binomial(to, n, share, true) - (from === 0 ? 0 : binomial(from - 1, n, share, true));
  }),
  ...named(["CRITBINOM", "BINOM.INV"], (name) => fn(name, "n n n", (_, n, p, share) => binomialInverse(n, p, share))),
  ...named(["POISSON", "POISSON.DIST"], (name) => fn(name, "n n b", (_, x, m, total) => poisson(x, m, total))),
  fn("NEGBINOMDIST", "n n n", (_, f, s, p) => negativeBinomial(f, s, p, false)),
  fn("NEGBINOM.DIST", "n n n b", (_, f, s, p, total) => negativeBinomial(f, s, p, total)),
  fn("HYPGEOMDIST", "n n n n", (_, k, n, m, all) => hypergeometric(k, n, m, all, false)),
  fn("HYPGEOM.DIST", "n n n n b", (_, k, n, m, all, total) => hypergeometric(k, n, m, all, total)),
  ...named(["EXPONDIST", "EXPON.DIST"], (name) =>
    fn(name, "n n b", (_, x, rate, total) => exponential(x, rate, total)),
  ),
  ...named(["WEIBULL", "WEIBULL.DIST"], (name) => fn(name, "n n n b", (_, x, a, b, total) => weibull(x, a, b, total))),
  fn("GAMMA", "n", (_, x) => gamma(x)),
  ...named(["GAMMALN", "GAMMALN.PRECISE"], (name) =>
    fn(name, "n", (_, x) => {
      needs(x > 0);
      return logGamma(x);
    }),
  ),
  ...named(["GAMMADIST", "GAMMA.DIST"], (name) => fn(name, "n n n b", (_, x, a, b, total) => gammaOf(x, a, b, total))),
  ...named(["GAMMAINV", "GAMMA.INV"], (name) =>
    fn(name, "n n n", (_, share, a, b) => {
      needs(share >= 0 && share < 1 && a > 0 && b > 0);
      return share === 0 ? 0 : b * solveAbove((x) => gammaShare(a, x), share, 0);
    }),
  ),
  fn("BETADIST", "n n n n? n?", (_, x, a, b, from = 0, to = 1) => betaOf(x, a, b, true, from, to)),
  fn("BETA.DIST", "n n n b n? n?", (_, x, a, b, total, from = 0, to = 1) => betaOf(x, a, b, total, from, to)),
  ...named(["BETAINV", "BETA.INV"], (name) =>
    fn(name, "n n n n? n?", (_, share, a, b, from = 0, to = 1) => betaAt(share, a, b, from, to)),
  ),
  fn("TDIST", "n n n", (_, t, n, sides) => {
    needs(t >= 0 && (Math.trunc(sides) === 1 || Math.trunc(sides) === 2));
    return Math.trunc(sides) * studentAbove(t, degrees(n));
  }),
  fn("T.DIST", "n n b", (_, t, n, total) => (total ? 1 - studentAbove(t, degrees(n)) : studentDensity(t, degrees(n)))),
  fn("T.DIST.RT", "n n", (_, t, n) => studentAbove(t, degrees(n))),
  fn("T.DIST.2T", "n n", (_, t, n) => {
    needs(t >= 0);
    return 2 * studentAbove(t, degrees(n));
  }),
  ...named(["TINV", "T.INV.2T"], (name) => fn(name, "n n", (_, share, n) => studentBeyond(share, degrees(n)))),
  fn("T.INV", "n n", (_, share, n) => {
    needs(share > 0 && share < 1);
    return share < 0.5 ? -studentBeyond(2 * share, degrees(n)) : studentBeyond(2 * (1 - share), degrees(n));
  }),
  ...named(["CHIDIST", "CHISQ.DIST.RT"], (name) =>
    fn(name, "n n", (_, x, n) => {
      needs(x >= 0);
      return gammaRest(degrees(n) / 2, x / 2);
    }),
  ),
  fn("CHISQ.DIST", "n n b", (_, x, n, total) => {
    needs(x >= 0);
    return total ? gammaShare(degrees(n) / 2, x / 2) : chiDensity(x, degrees(n));
  }),
  ...named(["CHIINV", "CHISQ.INV.RT"], (name) =>
    fn(name, "n n", (_, share, n) => {
      needs(share > 0 && share <= 1);
      const freedom = degrees(n);
      return share === 1 ? 0 : solveAbove((x) => -gammaRest(freedom / 2, x / 2), -share, 0);
    }),
  ),
  fn("CHISQ.INV", "n n", (_, share, n) => {
    needs(share >= 0 && share < 1);
    const freedom = degrees(n);
    return share === 0 ? 0 : solveAbove((x) => gammaShare(freedom / 2, x / 2), share, 0);
  }),
  ...named(["CHITEST", "CHISQ.TEST"], (name) =>
    fn(name, "a a", (context, seen, wanted) => chiTest(seen, wanted, context)),
  ),
  ...named(["FDIST", "F.DIST.RT"], (name) =>
    fn(name, "n n n", (_, x, m, n) => {
      needs(x >= 0);
      return fishersAbove(x, degrees(m), degrees(n));
    }),
  ),
  fn("F.DIST", "n n n b", (_, x, m, n, total) => {
    needs(x >= 0);
    return total ? fishersBelow(x, degrees(m), degrees(n)) : fishersDensity(x, degrees(m), degrees(n));
  }),
  ...named(["FINV", "F.INV.RT"], (name) =>
    fn(name, "n n n", (_, share, m, n) => {
      needs(share > 0 && share <= 1);
      const [a, b] = [degrees(m), degrees(n)];
      return share === 1 ? 0 : solveAbove((x) => -fishersAbove(x, a, b), -share, 0);
    }),
  ),
  fn("F.INV", "n n n", (_, share, m, n) => {
    needs(share >= 0 && share < 1);
    const [a, b] = [degrees(m), degrees(n)];
    return share === 0 ? 0 : solveAbove((x) => fishersBelow(x, a, b), share, 0);
  }),
  ...named(["FTEST", "F.TEST"], (name) => fn(name, "a a", (context, one, other) => variancesTest(one, other, context))),
  ...named(["TTEST", "T.TEST"], (name) =>
    fn(name, "a a n n", (context, one, other, sides, kind) => studentTest(one, other, sides, kind, context)),
  ),
  ...named(["ZTEST", "Z.TEST"], (name) =>
    fn(name, "a n n?", (context, data, x, spread) => normalTest(data, x, spread, context)),
  ),
  ...named(["CONFIDENCE", "CONFIDENCE.NORM"], (name) =>
    fn(name, "n n n", (_, alpha, spread, count) => {
      needs(alpha > 0 && alpha < 1 && spread > 0 && count >= 1);
      return (-normalInverse(alpha / 2) * spread) / Math.sqrt(Math.trunc(count));
    }),
  ),
  fn("CONFIDENCE.T", "n n n", (_, alpha, spread, count) => {
    needs(alpha > 0 && alpha < 1 && spread > 0 && count >= 1);
    const n = Math.trunc(count);
    if (n === 1) throw ERROR.division;
    return (studentBeyond(alpha, n - 1) * spread) / Math.sqrt(n);
  }),
  ...named(["ERF"], (name) =>
    fn(name, "n n?", (_, from, to) =>
      to === undefined ? errorFunction(from) : errorFunction(to) - errorFunction(from),
    ),
  ),
  fn("ERF.PRECISE", "n", (_, x) => errorFunction(x)),
  ...named(["ERFC", "ERFC.PRECISE"], (name) => fn(name, "n", (_, x) => errorRest(x))),
];
