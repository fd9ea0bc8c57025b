import { cellCount } from "../../../xlsx/index.js";
import { isOneCell, type PlacedCall, spellBlock, type WorkbookIndex } from "../formulas/workbook-index.js";
import type { FilledCell } from "../source/checked-workbook.js";
import { counted, coveringRanges, type Draft, oneCell, placesIn, spelled } from "../support/draft.js";
import { filledIn, type ReadingBlock, readingBlocks, typedSource } from "../support/readings.js";

const LOOKS_LIKE_A_NUMBER = /^\s*[-+]?(?:\d+[.,]?\d*|[.,]\d+)\s*$/;

function textFinding(index: WorkbookIndex, { block, formulas }: ReadingBlock, cell: FilledCell): Draft {
  const { sheet, row, column, value } = typedSource(index, block.sheet, cell);
  const place = { sheet, range: oneCell(row, column), explains: formulas };
  const shared = { ...place, kind: "text-reading" as const, severity: "error" as const };
  if (typeof value === "boolean") {
    const problem = `${value ? "TRUE" : "FALSE"} is among the readings and is not a velocity.`;
    return { ...shared, problem, action: "Type the reading, or empty the cell where nothing was measured." };
  }
  const text = String(value);
  if (LOOKS_LIKE_A_NUMBER.test(text)) {
    const problem = `The reading “${text.trim()}” is stored as text, so it does not count as a number.`;
    return { ...shared, problem, action: "Set the cell's format to General and type the number again." };
  }
  const shown = text.trim() === "" ? "only spaces" : `the text “${text.trim().slice(0, 40)}”`;
  const problem = `Among the readings is ${shown}.`;
  return {
    ...shared,
    problem,
    action: "Enter only a number, or clear the cell where nothing was measured; put words in a note.",
  };
}

function isText({ value }: FilledCell): boolean {
  return typeof value === "string" || typeof value === "boolean";
}

/** A heading at the top of what AVERAGE takes does no harm: AVERAGE leaves it out. */
function isHeading({ block, isNative }: ReadingBlock, { row, value }: FilledCell): boolean {
  return isNative && row === block.range.firstRow && !LOOKS_LIKE_A_NUMBER.test(String(value));
}

function blankCells({ block }: ReadingBlock, filled: readonly FilledCell[]) {
  const known = new Set(filled.map(({ row, column }) => `${row},${column}`));
  return placesIn(block.range).filter(({ row, column }) => !known.has(`${row},${column}`));
}

/** What `taken` must be: a count, or one for each outlet where every row is an outlet. */
function takenFor({ call }: PlacedCall, readings: string): string {
  if (call.id !== "SHEET.OUTLETS") return `taken = COUNT(${readings})`;
  return "taken = a column that holds in each row the COUNT of that row's readings";
}

/** A block larger than this is no block of readings of one opening, and its blanks are not listed. */
const MOST_CELLS = 10_000;

function withoutTaken(index: WorkbookIndex, found: ReadingBlock, filled: readonly FilledCell[]): readonly Draft[] {
  const { block, call } = found;
  if (found.hasTaken || isOneCell(block) || cellCount(block.range) > MOST_CELLS) return [];
  const zeros = filled.filter(({ value }) => value === 0);
  const hasReading = filled.some(({ value }) => typeof value === "number" && value !== 0);
  const readings = spellBlock(index, block, block.sheet);
  const shared = { sheet: block.sheet, explains: found.formulas };
  const drafts: Draft[] = coveringRanges(zeros).map((range) => ({
    ...shared,
    range,
    kind: "zero-without-taken",
    severity: "error",
    problem: `A 0 is among the readings ${readings}, and the formula cannot tell it from an empty cell.`,
    action: `Pass ${takenFor(call, readings)} to VANE.${call.call.id}, and keep the 0 only for a dead spot.`,
  }));
  const blanks = hasReading ? blankCells(found, filled) : [];
  const [first] = coveringRanges(blanks);
  if (first === undefined) return drafts;
  const more = blanks.length - cellCount(first);
  const others = more > 0 ? ` and ${counted(more, "more cell")}` : "";
  return [
    ...drafts,
    {
      ...shared,
      range: first,
      kind: "blank-reading",
      severity: "warning",
      isUnfinished: true,
      problem: `${spelled(first)}${others} of the readings ${readings} ${blanks.length === 1 ? "is" : "are"} empty, which the formula cannot tell from a measured 0.`,
      action: `Type what was measured, or pass ${takenFor(call, readings)} to VANE.${call.call.id} so that empty cells do not count.`,
    },
  ];
}

/** Blank cells and text among readings, and zeros that nothing tells from blank cells. */
export function checkReadings(index: WorkbookIndex): readonly Draft[] {
  return readingBlocks(index).flatMap((found) => {
    const filled = filledIn(index, found.block);
    const texts = filled.filter((cell) => isText(cell) && !isHeading(found, cell));
    return [...texts.map((cell) => textFinding(index, found, cell)), ...withoutTaken(index, found, filled)];
  });
}
