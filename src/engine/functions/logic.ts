import { CellError } from "../../cells/index.js";
import { broadcast, sharedAt } from "../formula/broadcast.js";
import { toBoolean, toMatrix } from "../formula/coerce.js";
import { compareScalars } from "../formula/compare.js";
import type { Context, Evaluate } from "../formula/context.js";
import { type Compiler, fn, type SpecialFunction } from "../formula/function-spec.js";
import type { FormulaNode } from "../formula/syntax.js";
import { ERROR, Matrix, Range, type Scalar, type Value } from "../formula/values.js";
import { truthsOf } from "./each-value.js";

const MOST = 255;

function whole(value: Value, context: Context): Scalar | Matrix {
  if (value instanceof Range) {
    return value.isCell ? value.at(0, 0) : toMatrix(value, (cells) => context.book.budget.spend(cells));
  }
  if (value instanceof Matrix) return value;
  return typeof value === "object" && value !== null && !(value instanceof CellError) ? ERROR.value : (value ?? null);
}

function truth(value: Scalar): boolean | CellError {
  try {
    return toBoolean(value);
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}

/** A branch of IF: an empty one is 0, as `IF(A1,,2)` has it. */
const branch = (node: FormulaNode, compiler: Compiler): Evaluate =>
  node.kind === "omitted" ? () => 0 : compiler.value(node);

function compileIf(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  const [test, yes, no] = given as readonly [FormulaNode, FormulaNode?, FormulaNode?];
  const condition = compiler.scalar(test);
  const whenTrue = yes === undefined ? () => true : branch(yes, compiler);
  const whenFalse = no === undefined ? () => false : branch(no, compiler);
  return (context) => {
    const tested = condition(context);
    if (!(tested instanceof Matrix)) {
      const isTrue = truth(tested);
      if (isTrue instanceof CellError) return isTrue;
      return isTrue ? whenTrue(context) : whenFalse(context);
    }
    const results = [whole(whenTrue(context), context), whole(whenFalse(context), context)] as const;
    return broadcast(
      [tested, ...results],
      ([one, a, b]) => {
        const isTrue = truth(one as Scalar);
        if (isTrue instanceof CellError) return isTrue;
        return (isTrue ? a : b) as Scalar;
      },
      context,
    );
  };
}

/** IFERROR and IFNA: what stands in for an error. */
function compileStandIn(isCaught: (error: CellError) => boolean) {
  return (given: readonly FormulaNode[], compiler: Compiler): Evaluate => {
    const [first, second] = given as readonly [FormulaNode, FormulaNode];
    const value = compiler.scalar(first);
    const instead = second.kind === "omitted" ? () => 0 : compiler.scalar(second);
    return (context) => {
      const tried = value(context);
      if (!(tried instanceof Matrix)) return tried instanceof CellError && isCaught(tried) ? instead(context) : tried;
      const others = instead(context);
      return broadcast(
        [tried, others],
        ([one, other]) => (one instanceof CellError && isCaught(one) ? (other as Scalar) : (one as Scalar)),
        context,
      );
    };
  };
}

function compileIfs(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  if (given.length % 2 !== 0) return () => ERROR.missing;
  const tests = given.filter((_, index) => index % 2 === 0).map((node) => compiler.scalar(node));
  const results = given.filter((_, index) => index % 2 === 1).map((node) => compiler.value(node));
  const from = (index: number, context: Context): Value => {
    const test = tests[index];
    if (test === undefined) return ERROR.missing;
    const tested = test(context);
    if (!(tested instanceof Matrix)) {
      const isTrue = truth(tested);
      if (isTrue instanceof CellError) return isTrue;
      return isTrue ? (results[index] as Evaluate)(context) : from(index + 1, context);
    }
    const parts = [whole((results[index] as Evaluate)(context), context), whole(from(index + 1, context), context)];
    return broadcast(
      [tested, ...parts],
      ([one, a, b]) => {
        const isTrue = truth(one as Scalar);
        return isTrue instanceof CellError ? isTrue : ((isTrue ? a : b) as Scalar);
      },
      context,
    );
  };
  return (context) => from(0, context);
}

function compileSwitch(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  const [first, ...rest] = given as readonly [FormulaNode, ...FormulaNode[]];
  const value = compiler.scalar(first);
  const hasDefault = rest.length % 2 === 1;
  const parts = rest.map((node) => compiler.value(node));
  const choose = (one: Scalar, context: Context): Value => {
    if (one instanceof CellError) return one;
    for (let index = 0; index + 1 < parts.length; index += 2) {
      const wanted = whole((parts[index] as Evaluate)(context), context);
      const other = wanted instanceof Matrix ? wanted.at(0, 0) : wanted;
      if (other instanceof CellError) return other;
      if (compareScalars(one, other) === 0) return (parts[index + 1] as Evaluate)(context);
    }
    return hasDefault ? (parts.at(-1) as Evaluate)(context) : ERROR.missing;
  };
  return (context) => {
    const one = value(context);
    if (!(one instanceof Matrix)) return choose(one, context);
    return broadcast(
      [one],
      ([each]) => {
        const chosen = whole(choose(each as Scalar, context), context);
        return chosen instanceof Matrix ? chosen.at(0, 0) : chosen;
      },
      context,
    );
  };
}

function chosenAt(index: Scalar, choices: readonly Evaluate[], context: Context): Value {
  if (index instanceof CellError) return index;
  const place = typeof index === "number" || typeof index === "boolean" || index === null ? Number(index) : Number.NaN;
  const choice = choices[Math.trunc(place) - 1];
  return Number.isNaN(place) || choice === undefined ? ERROR.value : choice(context);
}

/** CHOOSE: given a block of numbers, `CHOOSE({1,2},A1:A9,C1:C9)` sets its choices side by side. */
function compileChoose(given: readonly FormulaNode[], compiler: Compiler): Evaluate {
  const [first, ...rest] = given as readonly [FormulaNode, ...FormulaNode[]];
  const index = compiler.scalar(first);
  const choices = rest.map((node) => branch(node, compiler));
  return (context) => {
    const wanted = index(context);
    if (!(wanted instanceof Matrix))
      return chosenAt(typeof wanted === "string" ? Number(wanted) : wanted, choices, context);
    const blocks = wanted.rows.map((row) => row.map((one) => whole(chosenAt(one, choices, context), context)));
    const heights = blocks.flat().map((block) => (block instanceof Matrix ? block.height : 1));
    const widths = blocks.flat().map((block) => (block instanceof Matrix ? block.width : 1));
    const height = Math.max(wanted.height, ...heights);
    const width = Math.max(wanted.width, ...widths);
    context.book.budget.spendBlock("CHOOSE", height, width);
    return new Matrix(
      Array.from({ length: height }, (_, row) =>
        Array.from({ length: width }, (__, column) => {
          const block = blocks[wanted.height === 1 ? 0 : row]?.[wanted.width === 1 ? 0 : column];
          return block === undefined ? ERROR.block : sharedAt(block, row, column);
        }),
      ),
    );
  };
}

export const LOGIC_SPECIAL: readonly SpecialFunction[] = [
  { name: "IF", least: 1, most: 3, compile: compileIf },
  { name: "IFERROR", least: 2, most: 2, compile: compileStandIn(() => true) },
  { name: "IFNA", least: 2, most: 2, compile: compileStandIn(({ code }) => code === "#N/A") },
  { name: "IFS", least: 2, most: MOST, compile: compileIfs },
  { name: "SWITCH", least: 3, most: MOST, compile: compileSwitch },
  { name: "CHOOSE", least: 2, most: MOST, compile: compileChoose },
];

export const LOGIC = [
  fn("AND", "r*", (context, ...given) => truthsOf(given, context).every((truth) => truth)),
  fn("OR", "r*", (context, ...given) => truthsOf(given, context).some((truth) => truth)),
  fn("XOR", "r*", (context, ...given) => truthsOf(given, context).filter((truth) => truth).length % 2 === 1),
  fn("NOT", "b", (_, truth) => !truth),
  fn("TRUE", "", () => true),
  fn("FALSE", "", () => false),
];
