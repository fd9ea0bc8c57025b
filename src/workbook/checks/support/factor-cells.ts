import { readReference } from "../../../xlsx/index.js";
import {
  argumentOf,
  blockKey,
  blockOf,
  isOneCell,
  type PlacedFormula,
  type PlacedRange,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";

/** Cells that hold a free-area factor, and a formula that takes each. */
export interface FactorBlock {
  readonly block: PlacedRange;
  readonly formula: PlacedFormula;
}

/** `IF(H9="",0.75,H9)`: a factor with what is assumed where it is empty, as a sheet without a call writes it. */
const WITH_DEFAULT = /IF\(\s*(\$?[A-Z]{1,3}\$?\d{1,7})\s*=\s*""\s*,\s*(?:0?\.\d+|1)\s*,\s*\1\s*\)/gi;

function nativeFactors(index: WorkbookIndex, formula: PlacedFormula): readonly PlacedRange[] {
  if (!formula.text.includes('=""')) return [];
  return [...formula.text.matchAll(WITH_DEFAULT)].flatMap(([, cell]) => {
    const reference = readReference(cell ?? "", formula.row, formula.column);
    return (reference && index.resolve({ reference }, formula)) ?? [];
  });
}

/** Every block that plays the factor, as often as a formula takes it. */
export function factorBlocks(index: WorkbookIndex): readonly FactorBlock[] {
  const fromCalls = index.calls.flatMap((call) => {
    const block = blockOf(index, argumentOf(call, "factor"), call.formula);
    return block === undefined ? [] : [{ block, formula: call.formula }];
  });
  const native = index.formulas.flatMap((formula) =>
    nativeFactors(index, formula).map((block) => ({ block, formula })),
  );
  return [...fromCalls, ...native];
}

/** The single cells among them, by `sheet!address` as `cellKey` spells it. */
export function factorCellKeys(index: WorkbookIndex): ReadonlySet<string> {
  const blocks = new Map(factorBlocks(index).map(({ block }) => [blockKey(block), block]));
  return new Set(
    [...blocks.values()].flatMap((block) => {
      if (isOneCell(block)) return [cellKey(block)];
      const { firstRow, lastRow, firstColumn } = block.range;
      return Array.from(
        { length: lastRow - firstRow + 1 },
        (_, row) => `${block.sheet}!${firstRow + row},${firstColumn}`,
      );
    }),
  );
}

export function cellKey({ sheet, range }: PlacedRange): string {
  return `${sheet}!${range.firstRow},${range.firstColumn}`;
}

/** The cells that the formula takes for a factor in its own arithmetic. */
export function ownFactorKeys(index: WorkbookIndex, formula: PlacedFormula): readonly string[] {
  return nativeFactors(index, formula).map(cellKey);
}
