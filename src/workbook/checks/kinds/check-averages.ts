import { cellCount } from "../../../xlsx/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { blockKey, cellOf, isOneCell, type PlacedRange } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, oneCell } from "../support/draft.js";

/** Nobody's readings of one opening fill more cells. */
const MOST_CELLS = 400;
const BEGINS_WITH_A_NUMBER = /^\s*[~≈<>]?\s*[-+]?\d/;
const LOOKS_LIKE_A_NUMBER = /^\s*[-+]?(?:\d+[.,]?\d*|[.,]\d+)\s*$/;
const MEANS = new Set(["AVERAGE", "AVERAGEA", "MEDIAN"]);

/** Blocks that a spreadsheet's own mean goes through, and the readings of lists. */
function averagedBlocks(index: WorkbookIndex, lists: readonly CheckedList[]): readonly PlacedRange[] {
  const blocks = new Map<string, PlacedRange>();
  for (const formula of index.formulas) {
    if (!/AVERAGE|MEDIAN/i.test(formula.text)) continue;
    for (const { name, operands } of index.parsed(formula).natives) {
      if (!MEANS.has(name)) continue;
      for (const operand of operands) {
        const block = index.resolve(operand, formula);
        if (block !== undefined && cellCount(block.range) <= MOST_CELLS) blocks.set(blockKey(block), block);
      }
    }
  }
  for (const { sheet, list, outlets } of lists) {
    if (list.foundBy !== "mapping") continue;
    for (const { row } of outlets) {
      for (const column of list.readings.flatMap((readings) => [...readings.columns, ...readings.seconds])) {
        const block = { sheet, range: oneCell(row.row, column) };
        blocks.set(blockKey(block), block);
      }
    }
  }
  return [...blocks.values()];
}

/** A number that is stored as text, or has something behind it: a mean leaves it out without a word. */
function textNumber(sheet: number, row: number, column: number, text: string): Draft {
  const isNumber = LOOKS_LIKE_A_NUMBER.test(text);
  return {
    kind: "text-reading",
    severity: "error",
    sheet,
    range: oneCell(row, column),
    problem: `“${text.trim()}” is ${isNumber ? "stored as text" : "no number"}, so that an average leaves it out.`,
    action: isNumber ? "Set the cell's format to General and type the number again." : "Enter only the number.",
  };
}

/** A cell that takes its value from an empty one shows 0, and a mean takes that in. */
function blankAsZero(index: WorkbookIndex, sheet: number, row: number, column: number): readonly Draft[] {
  const formula = index.formulaAt(sheet, row, column);
  if (formula === undefined) return [];
  const { operands } = index.parsed(formula);
  const [operand] = operands;
  const source = operand === undefined || operands.length > 1 ? undefined : index.resolve(operand, formula);
  if (source === undefined || !isOneCell(source) || /[(*/+]/.test(formula.text.replace(/'[^']*'/g, ""))) return [];
  const { firstRow, firstColumn } = source.range;
  const isBlank =
    index.valueAt(source.sheet, firstRow, firstColumn) === null &&
    index.formulaAt(source.sheet, firstRow, firstColumn) === undefined;
  if (!isBlank) return [];
  const from = cellOf({ row: firstRow, column: firstColumn });
  return [
    {
      kind: "blank-as-zero",
      severity: "error",
      sheet,
      range: oneCell(row, column),
      problem: `The cell takes its reading from ${from}, which is empty: it shows 0, and the average takes that in.`,
      action: `Enter the reading in ${from}, or write =IF(${from}="","",${from}).`,
    },
  ];
}

/** What a spreadsheet's own average takes in, or leaves out, without a word. */
export function checkAverages(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  const seen = new Set<string>();
  return averagedBlocks(index, lists).flatMap(({ sheet, range }) =>
    [...(index.sheets[sheet]?.cellsIn(range) ?? [])].flatMap(({ row, column, value }): readonly Draft[] => {
      const key = `${sheet}!${row},${column}`;
      if (seen.has(key)) return [];
      seen.add(key);
      if (typeof value === "string" && BEGINS_WITH_A_NUMBER.test(value)) return [textNumber(sheet, row, column, value)];
      return value === 0 ? blankAsZero(index, sheet, row, column) : [];
    }),
  );
}
