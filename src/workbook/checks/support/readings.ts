import { placesOf } from "../formulas/roles.js";
import {
  argumentOf,
  blockKey,
  blockOf,
  formulaIn,
  isEmptyValue,
  isOneCell,
  type PlacedCall,
  type PlacedFormula,
  type PlacedRange,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import type { FilledCell } from "../source/checked-workbook.js";

/** A block of readings and the call that takes it. */
export interface ReadingBlock {
  readonly block: PlacedRange;
  /** The first call that takes it. */
  readonly call: PlacedCall;
  /** Every formula that takes it in the same way. */
  readonly formulas: PlacedFormula[];
  /** Whether the call says which zeros were measured. */
  readonly hasTaken: boolean;
  /** Whether the spreadsheet's own AVERAGE takes it: that leaves text out without a word. */
  readonly isNative: boolean;
}

/** The block row by row where each row belongs to another outlet, the whole block otherwise. */
export function openingsIn(block: PlacedRange, id: string): readonly PlacedRange[] {
  if (id !== "SHEET.OUTLETS") return [block];
  const { firstRow, lastRow } = block.range;
  return Array.from({ length: lastRow - firstRow + 1 }, (_, index) => ({
    sheet: block.sheet,
    range: { ...block.range, firstRow: firstRow + index, lastRow: firstRow + index },
  }));
}

/** Blocks that the spreadsheet's own AVERAGE takes on the way into a call that wants a mean velocity. */
export function averagedBlocks(index: WorkbookIndex, call: PlacedCall): readonly PlacedRange[] {
  const argument = argumentOf(call, "velocity");
  if (argument === undefined) return [];
  const inside = (formula: PlacedFormula, natives: typeof argument.natives) =>
    natives
      .filter(({ name }) => /^(?:AVERAGE|AVERAGEA|MEDIAN)$/.test(name))
      .flatMap(({ operands }) => operands)
      .flatMap((operand) => index.resolve(operand, formula) ?? []);
  const own = inside(call.formula, argument.natives);
  if (own.length > 0) return own;
  const behind = formulaIn(index, blockOf(index, argument, call.formula));
  return behind === undefined ? [] : inside(behind, index.parsed(behind).natives);
}

/** Every block of readings in the workbook, each once for the calls that tell zeros and once for those that do not. */
export function readingBlocks(index: WorkbookIndex): readonly ReadingBlock[] {
  const found = new Map<string, ReadingBlock>();
  const add = (block: PlacedRange, call: PlacedCall, hasTaken: boolean, isNative: boolean) => {
    const key = `${blockKey(block)}|${hasTaken}|${isNative}`;
    const known = found.get(key) ?? { block, call, formulas: [], hasTaken, isNative };
    known.formulas.push(call.formula);
    found.set(key, known);
  };
  for (const call of index.calls) {
    const block = blockOf(index, argumentOf(call, "readings"), call.formula);
    const hasTaken = argumentOf(call, "taken") !== undefined;
    if (block !== undefined) {
      for (const part of openingsIn(block, call.call.id)) add(part, call, hasTaken, false);
    }
    if (placesOf(call.call.id, "velocity").length > 0) {
      for (const averaged of averagedBlocks(index, call)) add(averaged, call, true, true);
    }
  }
  return [...found.values()];
}

/** A cell that only repeats another: the cell that it repeats, where a person typed. */
export function typedSource(
  index: WorkbookIndex,
  sheet: number,
  cell: FilledCell,
): FilledCell & { readonly sheet: number } {
  const formula = index.formulaAt(sheet, cell.row, cell.column);
  if (formula === undefined) return { ...cell, sheet };
  const blocks = index.parsed(formula).operands.map((operand) => index.resolve(operand, formula));
  const [first] = blocks;
  const isSame = blocks.every(
    (block) => block !== undefined && first !== undefined && blockKey(block) === blockKey(first),
  );
  if (first === undefined || !isSame || !isOneCell(first)) return { ...cell, sheet };
  const { firstRow: row, firstColumn: column } = first.range;
  const value = index.valueAt(first.sheet, row, column);
  return value === cell.value ? { row, column, value, sheet: first.sheet } : { ...cell, sheet };
}

/** The filled cells of a block that hold more than the empty text of a quiet formula. */
export function filledIn(index: WorkbookIndex, { sheet, range }: PlacedRange): readonly FilledCell[] {
  const cells = index.sheets[sheet]?.cellsIn(range) ?? [];
  return [...cells].filter(({ value }) => !isEmptyValue(value));
}

/** The numbers of a block, with their cells. */
export function numbersIn(
  index: WorkbookIndex,
  block: PlacedRange,
): readonly (FilledCell & { readonly value: number })[] {
  return filledIn(index, block).filter(
    (cell): cell is FilledCell & { value: number } => typeof cell.value === "number",
  );
}
