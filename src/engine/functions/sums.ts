import { CellError } from "../../cells/index.js";
import { toMatrix } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { Areas, ERROR, Matrix, Range, type Scalar, type Value } from "../formula/values.js";
import { eachCell, eachValue, mean, numbersAndWordsOf, numbersOf, pairsOf, sum } from "./each-value.js";

const atLeastOne = (numbers: readonly number[], choose: (one: number, other: number) => number) =>
  numbers.length === 0 ? 0 : numbers.reduce((best, number) => choose(best, number));

function product(numbers: readonly number[]): number {
  return numbers.length === 0 ? 0 : numbers.reduce((total, number) => total * number, 1);
}

function countNumbers(given: readonly Value[], context: Context): number {
  let count = 0;
  for (const value of given) {
    eachValue(value, context, (scalar, isAlone) => {
      if (typeof scalar === "number") count += 1;
      else if (isAlone && (scalar === null || typeof scalar === "boolean")) count += 1;
      else if (isAlone && typeof scalar === "string" && isNumeric(scalar, context)) count += 1;
    });
  }
  return count;
}

function isNumeric(text: string, context: Context): boolean {
  try {
    return numbersOf([text], context).length === 1;
  } catch {
    return false; // Only whether it holds a number is asked.
  }
}

function countFilled(given: readonly Value[], context: Context): number {
  let count = 0;
  for (const value of given) {
    eachValue(value, context, (scalar, isAlone) => {
      if (scalar !== null || isAlone) count += 1;
    });
  }
  return count;
}

function countBlank(value: Value, context: Context): number {
  if (value instanceof Range) {
    let filled = 0;
    eachCell(value, context, (scalar) => {
      if (scalar !== null && scalar !== "") filled += 1;
    });
    return value.height * value.width - filled;
  }
  let count = 0;
  eachValue(value, context, (scalar) => {
    if (scalar === null || scalar === "") count += 1;
  });
  return count;
}

/** Multiplies blocks of one size cell by cell; what is no number counts as 0. @throws {CellError} */
function sumOfProducts(given: readonly Value[], context: Context): number {
  if (given.some((value) => value instanceof Areas)) throw ERROR.value;
  const bounds = given.map((value) => sizeOf(value));
  const [first = { height: 1, width: 1 }] = bounds;
  if (bounds.some(({ height, width }) => height !== first.height || width !== first.width)) throw ERROR.value;
  const blocks = given.map((value) => toMatrix(value, (cells) => context.book.budget.spend(cells)));
  const height = Math.min(...blocks.map((block) => block.height));
  const products: number[] = [];
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < first.width; column += 1) {
      let total = 1;
      for (const block of blocks)
        total *= factorOf(block.at(row, column), given.length === 1 && !(given[0] instanceof Range));
      products.push(total);
    }
  }
  return sum(products);
}

function factorOf(value: Scalar, _isAlone: boolean): number {
  if (value instanceof CellError) throw value;
  return typeof value === "number" ? value : 0;
}

function sizeOf(value: Value): { readonly height: number; readonly width: number } {
  return value instanceof Range || value instanceof Matrix
    ? { height: value.height, width: value.width }
    : { height: 1, width: 1 };
}

export const SUMS = [
  fn("SUM", "r*", (context, ...given) => sum(numbersOf(given, context))),
  fn("SUMSQ", "r*", (context, ...given) => sum(numbersOf(given, context).map((number) => number * number))),
  fn("PRODUCT", "r*", (context, ...given) => product(numbersOf(given, context))),
  fn("AVERAGE", "r*", (context, ...given) => mean(numbersOf(given, context))),
  fn("AVERAGEA", "r*", (context, ...given) => mean(numbersAndWordsOf(given, context))),
  fn("MAX", "r*", (context, ...given) => atLeastOne(numbersOf(given, context), Math.max)),
  fn("MIN", "r*", (context, ...given) => atLeastOne(numbersOf(given, context), Math.min)),
  fn("MAXA", "r*", (context, ...given) => atLeastOne(numbersAndWordsOf(given, context), Math.max)),
  fn("MINA", "r*", (context, ...given) => atLeastOne(numbersAndWordsOf(given, context), Math.min)),
  fn("COUNT", "r*", (context, ...given) => countNumbers(given, context)),
  fn("COUNTA", "r*", (context, ...given) => countFilled(given, context)),
  fn("COUNTBLANK", "r", (context, value) => countBlank(value, context)),
  fn("SUMPRODUCT", "a (a)*", (context, ...given) => sumOfProducts(given, context)),
  fn("SUMX2MY2", "a a", (context, one, other) => {
    const { x, y } = pairsOf(one, other, context);
    return sum(x.map((value, index) => value ** 2 - (y[index] as number) ** 2));
  }),
  fn("SUMX2PY2", "a a", (context, one, other) => {
    const { x, y } = pairsOf(one, other, context);
    return sum(x.map((value, index) => value ** 2 + (y[index] as number) ** 2));
  }),
  fn("SUMXMY2", "a a", (context, one, other) => {
    const { x, y } = pairsOf(one, other, context);
    return sum(x.map((value, index) => (value - (y[index] as number)) ** 2));
  }),
];
