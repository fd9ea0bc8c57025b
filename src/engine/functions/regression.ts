import { toMatrix } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Matrix, type Scalar, type Value } from "../formula/values.js";
import { mean, pairsOf, sum } from "./each-value.js";

interface Pairs {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

function products({ x, y }: Pairs) {
  const [mx, my] = [mean(x), mean(y)];
  return {
    mx,
    my,
    xx: sum(x.map((value) => (value - mx) ** 2)),
    yy: sum(y.map((value) => (value - my) ** 2)),
    xy: sum(x.map((value, index) => (value - mx) * ((y[index] as number) - my))),
  };
}

function slope(pairs: Pairs): number {
  const { xx, xy } = products(pairs);
  if (xx === 0) throw ERROR.division;
  return xy / xx;
}

function intercept(pairs: Pairs): number {
  const { mx, my } = products(pairs);
  return my - slope(pairs) * mx;
}

function correlation(pairs: Pairs): number {
  const { xx, yy, xy } = products(pairs);
  if (xx === 0 || yy === 0) throw ERROR.division;
  return xy / Math.sqrt(xx * yy);
}

function covariance(pairs: Pairs, less: 0 | 1): number {
  if (pairs.x.length <= less) throw ERROR.division;
  return products(pairs).xy / (pairs.x.length - less);
}

function standardError(pairs: Pairs): number {
  const { xx, yy, xy } = products(pairs);
  if (pairs.x.length < 3 || xx === 0) throw ERROR.division;
  return Math.sqrt(Math.max(0, yy - (xy * xy) / xx) / (pairs.x.length - 2));
}

/** A line through points of several measures: least squares by orthogonal steps (Householder). */
interface Fit {
  /** One for each measure, and the constant last. */
  readonly factors: readonly number[];
  readonly errors: readonly number[];
  readonly freedom: number;
  readonly residual: number;
  readonly explained: number;
}

function numbersIn(matrix: Matrix): number[][] {
  return matrix.rows.map((row) =>
    row.map((value: Scalar) => {
      if (typeof value !== "number") throw ERROR.value;
      return value;
    }),
  );
}

const transposed = (rows: readonly (readonly number[])[]) =>
  (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] as number));

interface Points {
  readonly y: readonly number[];
  /** A row for each point. */
  readonly x: readonly (readonly number[])[];
  readonly isDown: boolean;
}

function pointsOf(ys: Value, xs: Value, context: Context): Points {
  const spend = (cells: number) => context.book.budget.spend(cells);
  const yRows = numbersIn(toMatrix(ys, spend));
  const isDown = (yRows[0]?.length ?? 0) === 1;
  const y = yRows.flat();
  if (xs === undefined) return { y, x: y.map((_, index) => [index + 1]), isDown };
  const xRows = numbersIn(toMatrix(xs, spend));
  if (xRows.flat().length === y.length) return { y, x: xRows.flat().map((value) => [value]), isDown };
  const x = isDown ? xRows : transposed(xRows);
  if (x.length !== y.length) throw ERROR.reference;
  return { y, x, isDown };
}

function fit({ x, y }: Points, hasConstant: boolean, context: Context): Fit {
  const measures = x[0]?.length ?? 0;
  context.book.budget.spend(x.length * (measures + 1) ** 2);
  const means = hasConstant ? transposed(x).map((column) => mean(column)) : new Array<number>(measures).fill(0);
  const my = hasConstant ? mean(y) : 0;
  const rows = x.map((row) => row.map((value, index) => value - (means[index] as number)));
  const right = y.map((value) => value - my);
  const { solution, inverseDiagonal, rank } = leastSquares(rows, right);
  const constant = hasConstant ? my - sum(solution.map((factor, index) => factor * (means[index] as number))) : 0;
  const residual = sum(
    rows.map(
      (row, index) => ((right[index] as number) - sum(row.map((value, at) => value * (solution[at] as number)))) ** 2,
    ),
  );
  const total = sum(right.map((value) => value * value));
  const freedom = y.length - rank - (hasConstant ? 1 : 0);
  const spread = freedom > 0 ? residual / freedom : 0;
  const errors = inverseDiagonal.map((value) => Math.sqrt(Math.max(0, value) * spread));
  const constantError = hasConstant ? Math.sqrt(spread * (1 / y.length + quadratic(rows, means))) : 0;
  return {
    factors: [...solution, constant],
    errors: [...errors, constantError],
    freedom,
    residual,
    explained: total - residual,
  };
}

/** m' (X'X)^-1 m, for the error of the constant. */
function quadratic(rows: readonly (readonly number[])[], m: readonly number[]): number {
  const columns = transposed(rows);
  const normal = columns.map((one) =>
    columns.map((other) => sum(one.map((value, index) => value * (other[index] as number)))),
  );
  const solved = gauss(normal, m);
  return solved === undefined ? 0 : sum(solved.map((value, index) => value * (m[index] as number)));
}

/** Solves linear equations; undefined where they have no single solution. */
export function gauss(equations: readonly (readonly number[])[], right: readonly number[]): number[] | undefined {
  const rows = equations.map((row, index) => [...row, right[index] as number]);
  const size = rows.length;
  for (let at = 0; at < size; at += 1) {
    let best = at;
    for (let row = at + 1; row < size; row += 1) {
      if (Math.abs(rows[row]?.[at] as number) > Math.abs(rows[best]?.[at] as number)) best = row;
    }
    const pivot = rows[best] as number[];
    if (Math.abs(pivot[at] as number) < 1e-300) return undefined;
    [rows[at], rows[best]] = [pivot, rows[at] as number[]];
    for (let row = 0; row < size; row += 1) {
      if (row === at) continue;
      const other = rows[row] as number[];
      const factor = (other[at] as number) / (pivot[at] as number);
      for (let column = at; factor !== 0 && column <= size; column += 1) {
        other[column] = (other[column] as number) - factor * (pivot[column] as number);
      }
    }
  }
  return rows.map((row, index) => (row[size] as number) / (row[index] as number));
}

function leastSquares(rows: readonly (readonly number[])[], right: readonly number[]) {
  const columns = transposed(rows).map((column) => [...column]);
  const size = columns.length;
  // Gram and Schmidt, twice for accuracy: Q in columns, R above.
  const r = columns.map(() => new Array<number>(size).fill(0));
  const used: boolean[] = [];
  for (let at = 0; at < size; at += 1) {
    const column = columns[at] as number[];
    const before = Math.sqrt(sum(column.map((value) => value * value)));
    for (let pass = 0; pass < 2; pass += 1) {
      for (let other = 0; other < at; other += 1) {
        if (used[other] !== true) continue;
        const q = columns[other] as number[];
        const share = sum(column.map((value, index) => value * (q[index] as number)));
        (r[other] as number[])[at] = ((r[other] as number[])[at] as number) + share;
        for (let index = 0; index < column.length; index += 1) {
          column[index] = (column[index] as number) - share * (q[index] as number);
        }
      }
    }
    const length = Math.sqrt(sum(column.map((value) => value * value)));
    used[at] = length > before * 1e-12 && length > 0;
    (r[at] as number[])[at] = used[at] ? length : 1;
    for (let index = 0; index < column.length; index += 1)
      column[index] = used[at] ? (column[index] as number) / length : 0;
  }
  const projected = columns.map((q) => sum(q.map((value, index) => value * (right[index] as number))));
  const back = (wanted: readonly number[]): number[] => {
    const solved = new Array<number>(size).fill(0);
    for (let at = size - 1; at >= 0; at -= 1) {
      if (used[at] !== true) continue;
      let rest = wanted[at] as number;
      for (let later = at + 1; later < size; later += 1)
        rest -= ((r[at] as number[])[later] as number) * (solved[later] as number);
      solved[at] = rest / ((r[at] as number[])[at] as number);
    }
    return solved;
  };
  const inverseDiagonal = new Array<number>(size).fill(0);
  for (let at = 0; at < size; at += 1) {
    const column = back(columns.map((_, index) => (index === at && used[at] === true ? 1 : 0)));
    column.forEach((value, index) => {
      inverseDiagonal[index] = (inverseDiagonal[index] as number) + value * value;
    });
  }
  return { solution: back(projected), inverseDiagonal, rank: used.filter((isUsed) => isUsed).length };
}

function statisticsOf(
  points: Points,
  hasConstant: boolean,
  hasStatistics: boolean,
  context: Context,
  isGrowth: boolean,
): Scalar[][] {
  const { factors, errors, freedom, residual, explained } = fit(points, hasConstant, context);
  const measures = factors.length - 1;
  const order = [...factors.slice(0, -1).reverse(), factors.at(-1) as number];
  const first = isGrowth ? order.map(Math.exp) : order;
  if (!hasStatistics) return [first];
  const reversed: Scalar[] = [
    ...errors.slice(0, -1).reverse(),
    hasConstant ? (errors.at(-1) as number) : ERROR.missing,
  ];
  const pad = (values: Scalar[]) => [...values, ...new Array<Scalar>(measures - 1).fill(ERROR.missing)];
  const total = explained + residual;
  const fisher = freedom > 0 && residual > 0 ? explained / measures / (residual / freedom) : ERROR.number;
  return [
    first,
    reversed,
    pad([total === 0 ? 1 : explained / total, freedom > 0 ? Math.sqrt(residual / freedom) : 0]),
    pad([fisher, freedom]),
    pad([explained, residual]),
  ];
}

function logged(points: Points): Points {
  if (points.y.some((value) => value <= 0)) throw ERROR.number;
  return { ...points, y: points.y.map(Math.log) };
}

function predicted(ys: Value, xs: Value, news: Value, hasConstant: boolean, isGrowth: boolean, context: Context) {
  const given = pointsOf(ys, xs, context);
  const points = isGrowth ? logged(given) : given;
  const { factors } = fit(points, hasConstant, context);
  const at = (row: readonly number[]) => {
    const value = sum(row.map((x, index) => x * (factors[index] as number))) + (factors.at(-1) as number);
    return isGrowth ? Math.exp(value) : value;
  };
  const wanted = news ?? xs;
  if (wanted === undefined) {
    const values = points.x.map(at);
    return points.isDown ? values.map((value) => [value]) : [values];
  }
  const rows = numbersIn(toMatrix(wanted, (cells) => context.book.budget.spend(cells)));
  if (factors.length === 2) return rows.map((row) => row.map((x) => at([x])));
  return points.isDown ? rows.map((row) => [at(row)]) : [transposed(rows).map(at)];
}

const ofPairs: Readonly<Record<string, (pairs: Pairs) => number>> = {
  CORREL: correlation,
  PEARSON: correlation,
  COVAR: (pairs) => covariance(pairs, 0),
  "COVARIANCE.P": (pairs) => covariance(pairs, 0),
  "COVARIANCE.S": (pairs) => covariance(pairs, 1),
};

/** Those that are given the measured values first. */
const ofMeasured: Readonly<Record<string, (pairs: Pairs) => number>> = {
  RSQ: (pairs) => correlation(pairs) ** 2,
  SLOPE: slope,
  INTERCEPT: intercept,
  STEYX: standardError,
};

export const REGRESSION = [
  ...Object.entries(ofPairs).map(([name, calculate]) =>
    fn(name, "a a", (context, one, other) => calculate(pairsOf(one, other, context))),
  ),
  ...Object.entries(ofMeasured).map(([name, calculate]) =>
    fn(name, "a a", (context, ys, xs) => calculate(pairsOf(xs, ys, context))),
  ),
  ...["FORECAST", "FORECAST.LINEAR"].map((name) =>
    fn(name, "n a a", (context, x, ys, xs) => {
      const pairs = pairsOf(xs, ys, context);
      return intercept(pairs) + slope(pairs) * x;
    }),
  ),
  fn("LINEST", "a a~ b~ b~", (context, ys, xs, hasConstant = true, hasStatistics = false) =>
    statisticsOf(pointsOf(ys, xs, context), hasConstant, hasStatistics, context, false),
  ),
  fn("LOGEST", "a a~ b~ b~", (context, ys, xs, hasConstant = true, hasStatistics = false) =>
    statisticsOf(logged(pointsOf(ys, xs, context)), hasConstant, hasStatistics, context, true),
  ),
  fn("TREND", "a a~ a~ b~", (context, ys, xs, news, hasConstant = true) =>
    predicted(ys, xs, news, hasConstant, false, context),
  ),
  fn("GROWTH", "a a~ a~ b~", (context, ys, xs, news, hasConstant = true) =>
    predicted(ys, xs, news, hasConstant, true, context),
  ),
];
