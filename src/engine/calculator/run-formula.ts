import { CellError } from "../../cells/index.js";
import { cellCount, WORKBOOK_LIMITS } from "../../xlsx/index.js";
import { BeyondLimitError } from "../formula/budget.js";
import { toMatrix } from "../formula/coerce.js";
import { asScalar } from "../formula/compile-formula.js";
import type { Context } from "../formula/context.js";
import { FormulaFault } from "../formula/parse-formula.js";
import { ERROR, finite, Matrix, Range, type Scalar, type Value } from "../formula/values.js";
import type { FormulaNode } from "./formula-node.js";
import { OutdatedInput, type SheetCells } from "./sheet-cells.js";
import type { WorkbookBook } from "./workbook-book.js";

/** Thrown where a formula turns out to need others that are not settled yet. */
export class UnsettledInput extends Error {
  constructor(readonly formulas: readonly number[]) {
    super("");
  }
}

interface PlacedScalar {
  readonly row: number;
  readonly column: number;
  readonly value: Scalar;
}

/** What a formula gave for its own cell and those it fills, why it was not calculated, or what it waits for. */
export type Outcome =
  | { readonly cells: readonly PlacedScalar[] }
  | { readonly reason: string; readonly readsOutdated: boolean }
  | { readonly waiting: readonly number[] };

/** Calculates a formula whose inputs, as far as they are known before, are all settled. */
export function runFormula(node: FormulaNode, grid: SheetCells, book: WorkbookBook): Outcome {
  const { compiled } = node.prepared;
  if (compiled === undefined) return { reason: node.prepared.fault ?? "", readsOutdated: false };
  try {
    const unknown = compiled.unknownCalls.find((name) => book.nameOn(node.sheet, name) === undefined);
    if (unknown !== undefined) {
      const reason = unknown === "TABLE" ? "it is a what-if table" : `it calls ${unknown}, which is not known here`;
      return { reason, readsOutdated: false };
    }
    const context: Context = { book, grid, row: node.row, column: node.column, scope: undefined, nesting: 0 };
    book.budget.begin();
    return { cells: spread(compiled.evaluate(context), node, context) };
  } catch (thrown) {
    if (thrown instanceof UnsettledInput) return { waiting: thrown.formulas };
    return { reason: reasonOf(thrown, grid), readsOutdated: thrown instanceof OutdatedInput };
  }
}

function reasonOf(thrown: unknown, grid: SheetCells): string {
  if (thrown instanceof OutdatedInput) {
    const sheet = thrown.sheet === grid.name ? "" : `${thrown.sheet}!`;
    return `it depends on ${sheet}${addressOf(thrown)}, which is not calculated here`;
  }
  if (thrown instanceof BeyondLimitError || thrown instanceof FormulaFault) return thrown.message;
  // A machine's stack ends before the limits on what stands within what do.
  if (thrown instanceof RangeError) return "it goes too deep to be calculated here";
  // A fault of ours in one formula leaves it as it is, with the reason, and the rest goes on.
  return `it cannot be calculated here (${String(thrown)})`;
}

function addressOf({ row, column }: OutdatedInput): string {
  let letters = "";
  for (let rest = column; rest > 0; rest = Math.floor((rest - 1) / 26))
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters + row;
}

/** A blank result shows as 0, as every spreadsheet program has it; what no cell can hold is an error. */
export function settled(value: Scalar): Scalar {
  if (value === null) return 0;
  if (typeof value === "number") return finite(value);
  if (typeof value === "string" && value.length > WORKBOOK_LIMITS.textLength) {
    return new CellError("#VALUE!", `A cell holds ${WORKBOOK_LIMITS.textLength} characters, and the result has more.`);
  }
  return value;
}

function single(value: Value, context: Context): Scalar {
  const one = asScalar(value, context, false);
  return settled(one instanceof Matrix ? one.at(0, 0) : one);
}

/** Lays a result over the cells that the formula fills: its own alone, or the block that the file keeps for it. */
function spread(
  value: Value,
  { row, column, fills, isDynamic }: FormulaNode,
  context: Context,
): readonly PlacedScalar[] {
  if (fills === undefined) {
    if (isDynamic && value instanceof Range) return [{ row, column, value: settled(value.at(0, 0)) }];
    return [{ row, column, value: single(value, context) }];
  }
  const block =
    value instanceof Range || value instanceof Matrix
      ? toMatrix(value, (cells) => context.book.budget.spend(cells))
      : undefined;
  const one = block === undefined ? single(value, context) : undefined;
  const beyond: Scalar = isDynamic ? "" : ERROR.block;
  const cells: PlacedScalar[] = [];
  context.book.budget.spend(cellCount(fills));
  for (let down = fills.firstRow; down <= fills.lastRow; down += 1) {
    for (let across = fills.firstColumn; across <= fills.lastColumn; across += 1) {
      cells.push({
        row: down,
        column: across,
        value: valueAt(block, one, down - fills.firstRow, across - fills.firstColumn, isDynamic) ?? beyond,
      });
    }
  }
  return cells;
}

/** An array formula that was told its block repeats a single value, row or column over it; a dynamic one found its own size. */
function valueAt(
  block: Matrix | undefined,
  one: Scalar | undefined,
  row: number,
  column: number,
  isDynamic: boolean,
): Scalar | undefined {
  if (block === undefined) return isDynamic && row + column > 0 ? undefined : one;
  const atRow = block.height === 1 && !isDynamic ? 0 : row;
  const atColumn = block.width === 1 && !isDynamic ? 0 : column;
  return atRow < block.height && atColumn < block.width ? settled(block.at(atRow, atColumn)) : undefined;
}
