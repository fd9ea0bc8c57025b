import { CellError } from "../../cells/index.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { Areas, ERROR, Matrix, Range, type Scalar, type Value } from "../formula/values.js";
import { rowsByValue } from "./column-index.js";
import { criterion, type Meets, wantedAlone } from "./criterion.js";
import { mean, sum } from "./each-value.js";

type Block = Range | Matrix;

/** Criteria ask of references; a block made by a formula has no cells to ask. */
function blockOf(value: Value): Block {
  if (value instanceof Range || value instanceof Matrix) return value;
  if (value instanceof CellError) throw value;
  if (value instanceof Areas || value === undefined) throw ERROR.value;
  throw ERROR.value;
}

interface Condition {
  readonly block: Block;
  readonly given: Scalar;
  readonly meets: Meets;
}

function conditionsOf(given: readonly Value[], context: Context): readonly Condition[] {
  const conditions: Condition[] = [];
  for (let index = 0; index + 1 < given.length; index += 2) {
    const wanted = (given[index + 1] ?? null) as Scalar;
    conditions.push({ block: blockOf(given[index]), given: wanted, meets: criterion(wanted, context) });
  }
  const [first] = conditions;
  if (given.length % 2 !== 0 || first === undefined) throw ERROR.value;
  const isSame = ({ block }: Condition) => block.height === first.block.height && block.width === first.block.width;
  if (!conditions.every(isSame)) throw ERROR.value;
  return conditions;
}

/** The last row and column, counted from 0, that a condition or a sum can find anything in. */
function reach(blocks: readonly Block[]): { readonly height: number; readonly width: number } {
  const used = (block: Block) =>
    block instanceof Range
      ? { height: block.usedLastRow - block.firstRow + 1, width: block.usedLastColumn - block.firstColumn + 1 }
      : { height: block.height, width: block.width };
  return {
    height: Math.max(0, ...blocks.map((block) => used(block).height)),
    width: Math.max(0, ...blocks.map((block) => used(block).width)),
  };
}

/** Calls back with the place of each cell that meets every condition; how many lie beyond all that is used, it returns. */
function eachMet(
  conditions: readonly Condition[],
  also: Block | undefined,
  context: Context,
  visit: (row: number, column: number) => void,
): number {
  const [first] = conditions as readonly [Condition, ...Condition[]];
  const rows = quickRows(first, context);
  const rest = rows === undefined ? conditions : conditions.slice(1);
  if (rows !== undefined) {
    context.book.budget.spend(rows.length * conditions.length);
    for (const row of rows) if (rest.every(({ block, meets }) => meets(block.at(row, 0)))) visit(row, 0);
    return 0;
  }
  const blocks = conditions.map(({ block }) => block);
  const { height, width } = reach(also === undefined ? blocks : [...blocks, also]);
  const [rowCount, columnCount] = [Math.min(height, first.block.height), Math.min(width, first.block.width)];
  context.book.budget.spend(rowCount * columnCount * conditions.length);
  for (let row = 0; row < rowCount; row += 1) {
    for (let column = 0; column < columnCount; column += 1) {
      if (conditions.every(({ block, meets }) => meets(block.at(row, column)))) visit(row, column);
    }
  }
  const beyond = first.block.height * first.block.width - rowCount * columnCount;
  return beyond > 0 && conditions.every(({ meets }) => meets(null)) ? beyond : 0;
}

/** The rows that meet a condition that asks for one value of one long column. */
function quickRows({ block, given }: Condition, context: Context): readonly number[] | undefined {
  const wanted = wantedAlone(given);
  if (wanted === undefined || !(block instanceof Range) || block.width !== 1) return undefined;
  return rowsByValue(block, context)?.(wanted);
}

function placesMet(conditions: readonly Condition[], of: Value, context: Context, isStrict: boolean): number[] {
  const block = blockOf(of);
  const [first] = conditions as readonly [Condition, ...Condition[]];
  if (isStrict && (block.height !== first.block.height || block.width !== first.block.width)) throw ERROR.value;
  // The block of a SUMIF begins where it is told and is as large as the one of the condition.
  const values = block instanceof Range ? resized(block, first.block) : block;
  const numbers: number[] = [];
  eachMet(conditions, values, context, (row, column) => {
    const value = values.at(row, column);
    if (value instanceof CellError) throw value;
    if (typeof value === "number") numbers.push(value);
  });
  return numbers;
}

function resized({ grid, firstRow, firstColumn }: Range, { height, width }: Block): Range {
  return new Range(grid, firstRow, firstColumn, firstRow + height - 1, firstColumn + width - 1);
}

const best = (numbers: readonly number[], choose: (one: number, other: number) => number) =>
  numbers.length === 0 ? 0 : numbers.reduce((one, other) => choose(one, other));

export const CONDITIONAL = [
  fn("COUNTIF", "r e", (context, block, wanted) => {
    let count = 0;
    const beyond = eachMet(conditionsOf([block, wanted], context), undefined, context, () => {
      count += 1;
    });
    return count + beyond;
  }),
  fn("COUNTIFS", "(r e)*", (context, ...given) => {
    let count = 0;
    const beyond = eachMet(conditionsOf(given, context), undefined, context, () => {
      count += 1;
    });
    return count + beyond;
  }),
  fn("SUMIF", "r e r~", (context, block, wanted, of = block) =>
    sum(placesMet(conditionsOf([block, wanted], context), of, context, false)),
  ),
  fn("AVERAGEIF", "r e r~", (context, block, wanted, of = block) =>
    mean(placesMet(conditionsOf([block, wanted], context), of, context, false)),
  ),
  fn("SUMIFS", "r (r e)*", (context, of, ...given) => sum(placesMet(conditionsOf(given, context), of, context, true))),
  fn("AVERAGEIFS", "r (r e)*", (context, of, ...given) =>
    mean(placesMet(conditionsOf(given, context), of, context, true)),
  ),
  fn("MAXIFS", "r (r e)*", (context, of, ...given) =>
    best(placesMet(conditionsOf(given, context), of, context, true), Math.max),
  ),
  fn("MINIFS", "r (r e)*", (context, of, ...given) =>
    best(placesMet(conditionsOf(given, context), of, context, true), Math.min),
  ),
];
