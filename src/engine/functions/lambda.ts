import { CellError } from "../../cells/index.js";
import { toMatrix, toNumber } from "../formula/coerce.js";
import type { Context, Evaluate, Scope } from "../formula/context.js";
import { type Compiler, fn, type SpecialFunction } from "../formula/function-spec.js";
import { FormulaFault } from "../formula/parse-formula.js";
import type { FormulaNode } from "../formula/syntax.js";
import { ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "../formula/values.js";

const MOST = 253;

function nameOf(node: FormulaNode | undefined): string {
  if (node?.kind !== "name") throw new FormulaFault("its LET or LAMBDA lacks a name");
  return node.name.toUpperCase();
}

function compileLet(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  if (given.length % 2 === 0) throw new FormulaFault("its LET lacks a value or the part to calculate");
  const bound = Array.from({ length: (given.length - 1) / 2 }, (_, index) => ({
    name: nameOf(given[2 * index]),
    value: compiler.value(given[2 * index + 1] as FormulaNode),
  }));
  const body = compiler.value(given.at(-1) as FormulaNode);
  return (context) => {
    let scope: Scope | undefined = context.scope;
    for (const { name, value } of bound) scope = { name, value: value({ ...context, scope }), outer: scope };
    return body({ ...context, scope });
  };
}

function compileLambda(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  const names = given.slice(0, -1).map(nameOf);
  const body = compiler.value(given.at(-1) as FormulaNode);
  return (context) =>
    new Lambda(names.length, (values) => {
      if (values.length > names.length) return ERROR.value;
      context.book.budget.spend(1);
      let scope = context.scope;
      names.forEach((name, index) => {
        scope = { name, value: values[index], outer: scope };
      });
      if (context.nesting >= DEEPEST) return ERROR.number;
      return body({ ...context, scope, nesting: context.nesting + 1 });
    });
}

/** A LAMBDA that calls itself through a name ends here, before the machine's own stack does. */
const DEEPEST = 60;

function lambdaOf(value: Value): Lambda {
  if (value instanceof CellError) throw value;
  if (!(value instanceof Lambda)) throw ERROR.value;
  return value;
}

function one(value: Value): Scalar {
  if (value instanceof Matrix || value instanceof Range) {
    return value.height === 1 && value.width === 1 ? value.at(0, 0) : ERROR.value;
  }
  return typeof value === "object" && value !== null && !(value instanceof CellError) ? ERROR.value : (value ?? null);
}

const matrixOf = (value: Value, { book }: Context) => toMatrix(value, (cells) => book.budget.spend(cells));

function dimension(value: Value): number {
  const size = Math.trunc(toNumber(one(value)));
  if (!(size >= 1)) throw ERROR.value;
  return size;
}

export const LAMBDA_SPECIAL: readonly SpecialFunction[] = [
  { name: "LET", least: 3, most: MOST, compile: compileLet },
  { name: "LAMBDA", least: 1, most: MOST, compile: compileLambda },
];

export const LAMBDA = [
  fn("MAP", "a a*", (context, first, ...rest) => {
    const lambda = lambdaOf(rest.at(-1));
    const blocks = [first, ...rest.slice(0, -1)].map((value) => matrixOf(value, context));
    const height = Math.max(...blocks.map((block) => block.height));
    const width = Math.max(...blocks.map((block) => block.width));
    context.book.budget.spendBlock("MAP", height, width);
    return Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (__, column) =>
        one(
          lambda.call(
            blocks.map((block) => (row < block.height && column < block.width ? block.at(row, column) : ERROR.block)),
          ),
        ),
      ),
    );
  }),
  fn("BYROW", "a r", (context, given, by) => {
    const lambda = lambdaOf(by);
    return matrixOf(given, context).rows.map((row) => [one(lambda.call([new Matrix([row])]))]);
  }),
  fn("BYCOL", "a r", (context, given, by) => {
    const lambda = lambdaOf(by);
    const matrix = matrixOf(given, context);
    return [
      Array.from({ length: matrix.width }, (_, column) =>
        one(lambda.call([new Matrix(matrix.rows.map((row) => [row[column] ?? null]))])),
      ),
    ];
  }),
  // Without a value to start with, the first of the block is it (Microsoft, REDUCE function).
  fn("REDUCE", "r a r", (context, start, given, by) => {
    const lambda = lambdaOf(by);
    let total: Value = start;
    for (const row of matrixOf(given, context).rows)
      for (const value of row) total = total === undefined ? value : lambda.call([total, value]);
    return total;
  }),
  fn("SCAN", "r a r", (context, start, given, by) => {
    const lambda = lambdaOf(by);
    let total: Value = start;
    return matrixOf(given, context).rows.map((row) =>
      row.map((value) => {
        total = total === undefined ? value : lambda.call([total, value]);
        return one(total);
      }),
    );
  }),
  fn("MAKEARRAY", "r r r", (context, rows, columns, by) => {
    const lambda = lambdaOf(by);
    const [height, width] = [dimension(rows), dimension(columns)];
    context.book.budget.spendBlock("MAKEARRAY", height, width);
    return Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (__, column) => one(lambda.call([row + 1, column + 1]))),
    );
  }),
  fn("ISOMITTED", "r", (_, value) => value === undefined),
];
