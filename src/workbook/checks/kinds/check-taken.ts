import { cellCount } from "../../../xlsx/index.js";
import type { ParsedText } from "../formulas/parse-formula.js";
import {
  argumentOf,
  blockKey,
  blockOf,
  formulaIn,
  isOneCell,
  type PlacedCall,
  type PlacedFormula,
  type PlacedRange,
  spellBlock,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";
import { numbersIn } from "../support/readings.js";

interface Counted {
  readonly name: string;
  readonly blocks: readonly PlacedRange[];
}

/** The COUNT that says how many readings were taken: in the argument itself or in the cell to which it points. */
function countBehind(index: WorkbookIndex, call: PlacedCall): Counted | undefined {
  const argument = argumentOf(call, "taken");
  if (argument === undefined) return undefined;
  const inside = (parsed: ParsedText, formula: PlacedFormula): Counted | undefined => {
    const [count, ...more] = parsed.natives.filter(({ name }) => name === "COUNT" || name === "COUNTA");
    if (count === undefined || more.length > 0) return undefined;
    return { name: count.name, blocks: count.operands.flatMap((operand) => index.resolve(operand, formula) ?? []) };
  };
  const own = inside(argument, call.formula);
  if (own !== undefined) return own;
  const behind = formulaIn(index, blockOf(index, argument, call.formula));
  return behind === undefined ? undefined : inside(index.parsed(behind), behind);
}

/** Whether blocks together are the same cells as one block. */
function isSameCells(blocks: readonly PlacedRange[], whole: PlacedRange): boolean {
  const isInside = ({ sheet, range }: PlacedRange) =>
    sheet === whole.sheet &&
    range.firstRow >= whole.range.firstRow &&
    range.lastRow <= whole.range.lastRow &&
    range.firstColumn >= whole.range.firstColumn &&
    range.lastColumn <= whole.range.lastColumn;
  return (
    blocks.every(isInside) && blocks.reduce((sum, { range }) => sum + cellCount(range), 0) === cellCount(whole.range)
  );
}

function draft(call: PlacedCall, problem: string, action: string): Draft {
  const { formula } = call;
  return {
    kind: "taken-counts-other-cells",
    severity: "error",
    sheet: formula.sheet,
    range: oneCell(formula.row, formula.column),
    explains: [formula],
    problem,
    action,
  };
}

function countFinding(index: WorkbookIndex, call: PlacedCall, readings: PlacedRange): readonly Draft[] {
  const argument = argumentOf(call, "taken");
  if (argument === undefined) return [];
  const own = call.formula.sheet;
  const wanted = `COUNT(${spellBlock(index, readings, own)})`;
  const action = `Make taken ${wanted}.`;
  const count = countBehind(index, call);
  if (count !== undefined) {
    const counted = count.blocks.map((block) => spellBlock(index, block, own)).join(" and ");
    if (!isSameCells(count.blocks, readings)) {
      return [
        draft(call, `taken counts ${counted}, but the readings are ${spellBlock(index, readings, own)}.`, action),
      ];
    }
    const isWrong = count.name === "COUNTA";
    return isWrong ? [draft(call, `taken is COUNTA(${counted}), which counts text as well as numbers.`, action)] : [];
  }
  const block = blockOf(index, argument, call.formula);
  const stated =
    argument.literal ??
    (block && isOneCell(block) ? index.valueAt(block.sheet, block.range.firstRow, block.range.firstColumn) : null);
  if (typeof stated !== "number") return [];
  const there = numbersIn(index, readings).length;
  if (stated === there) return [];
  return [draft(call, `taken is ${stated}, but ${spellBlock(index, readings, own)} holds ${there} numbers.`, action)];
}

/** A single measured 0 that nothing tells from an empty cell. */
function zeroFinding(index: WorkbookIndex, call: PlacedCall): readonly Draft[] {
  if (argumentOf(call, "taken") !== undefined) return [];
  return (["velocity", "measured"] as const).flatMap((role) => {
    const block = blockOf(index, argumentOf(call, role), call.formula);
    if (block === undefined || !isOneCell(block) || formulaIn(index, block) !== undefined) return [];
    const { firstRow: row, firstColumn: column } = block.range;
    if (index.valueAt(block.sheet, row, column) !== 0) return [];
    const cell = spellBlock(index, block, call.formula.sheet);
    const found: Draft = {
      kind: "zero-without-taken",
      severity: "error",
      sheet: block.sheet,
      range: block.range,
      explains: [call.formula],
      problem: `${cell} is 0, and the formula cannot tell it from an empty cell.`,
      action: `Pass taken = COUNT(${cell}) to VANE.${call.call.id} if 0 was measured, and empty the cell otherwise.`,
    };
    return [found];
  });
}

/** A `taken` that counts other cells than the readings, and single zeros without it. */
export function checkTaken(index: WorkbookIndex): readonly Draft[] {
  return index.calls.flatMap((call) => {
    const readings = blockOf(index, argumentOf(call, "readings"), call.formula);
    if (readings !== undefined && call.call.id !== "SHEET.OUTLETS") return countFinding(index, call, readings);
    const velocity = blockOf(index, argumentOf(call, "velocity") ?? argumentOf(call, "measured"), call.formula);
    const isTyped = velocity !== undefined && formulaIn(index, velocity) === undefined;
    const count = countBehind(index, call);
    const isOther =
      isTyped && count?.blocks.length === 1 && count.blocks.some((block) => blockKey(block) !== blockKey(velocity));
    if (isOther) return countFinding(index, call, velocity);
    return zeroFinding(index, call);
  });
}
