import { readReference } from "../../../xlsx/index.js";
import type { ParsedArgument } from "../formulas/parse-formula.js";
import {
  argumentOf,
  blockOf,
  callsVane,
  isOneCell,
  type PlacedCall,
  type PlacedFormula,
  type PlacedRange,
  spellBlock,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";
import { numbersIn } from "../support/readings.js";

/** Whether anything that an argument names holds a number. */
function hasNumber(index: WorkbookIndex, argument: ParsedArgument, formula: PlacedFormula): boolean {
  if (typeof argument.literal === "number") return true;
  return argument.operands.some((operand) => {
    const block = index.resolve(operand, formula);
    return block !== undefined && numbersIn(index, block).length > 0;
  });
}

function draft(sheet: number, row: number, column: number, isZero: boolean, formula: PlacedFormula): Draft {
  return {
    kind: "percent-without-design",
    severity: isZero ? "error" : "warning",
    isUnfinished: !isZero,
    sheet,
    range: oneCell(row, column),
    explains: [formula],
    problem: isZero
      ? "The design airflow is 0, so there is no percent of design."
      : "An airflow was measured, but its design airflow is missing, so there is no percent of design.",
    action: "Type the design airflow, or leave percent and verdict out where there is none.",
  };
}

/** Rows of two columns, or one cell each. */
function pairs(
  index: WorkbookIndex,
  call: PlacedCall,
  measured: ParsedArgument,
  design: PlacedRange,
): readonly Draft[] {
  const { formula } = call;
  const { firstRow, lastRow, firstColumn, lastColumn } = design.range;
  const measuredBlock = blockOf(index, measured, formula);
  const isColumn = firstColumn === lastColumn && lastRow > firstRow;
  const isAlongside =
    measuredBlock !== undefined && measuredBlock.range.lastRow - measuredBlock.range.firstRow === lastRow - firstRow;
  if (isOneCell(design)) {
    if (!hasNumber(index, measured, formula)) return [];
    const value = index.valueAt(design.sheet, firstRow, firstColumn);
    const isMissing = value === null || value === "" || value === 0;
    return isMissing ? [draft(design.sheet, firstRow, firstColumn, value === 0, formula)] : [];
  }
  if (!isColumn || !isAlongside) return [];
  const measuredRows = new Set(numbersIn(index, measuredBlock).map(({ row }) => row - measuredBlock.range.firstRow));
  return [...measuredRows].flatMap((down) => {
    const value = index.valueAt(design.sheet, firstRow + down, firstColumn);
    const isMissing = value === null || value === "" || value === 0;
    return isMissing ? [draft(design.sheet, firstRow + down, firstColumn, value === 0, formula)] : [];
  });
}

function inCall(index: WorkbookIndex, call: PlacedCall): readonly Draft[] {
  const design = blockOf(index, argumentOf(call, "design"), call.formula);
  const measured =
    argumentOf(call, "measured") ?? (call.call.id === "SHEET.OUTLETS" ? argumentOf(call, "readings") : undefined);
  return design === undefined || measured === undefined ? [] : pairs(index, call, measured, design);
}

/** A division of an airflow of ours by a cell that holds nothing. */
function inQuotient(index: WorkbookIndex, formula: PlacedFormula): readonly Draft[] {
  const shown = index.valueAt(formula.sheet, formula.row, formula.column);
  if (typeof shown !== "object" || shown?.error !== "#DIV/0!") return [];
  return index.parsed(formula).quotients.flatMap(({ over, under }) => {
    const [measured, design] = [index.resolve(over, formula), index.resolve(under, formula)];
    if (measured === undefined || design === undefined || !isOneCell(measured) || !isOneCell(design)) return [];
    const airflow = index.formulaAt(measured.sheet, measured.range.firstRow, measured.range.firstColumn);
    if (airflow === undefined || !callsVane(airflow)) return [];
    const { firstRow: row, firstColumn: column } = design.range;
    const value = index.valueAt(design.sheet, row, column);
    return value === null || value === "" || value === 0
      ? [draft(design.sheet, row, column, value === 0, formula)]
      : [];
  });
}

/** What our sheets show where a verdict would stand while something is missing. */
const GAP = /^no (design|size|time)$/;

/** Which cells are missing, as the formula tests it: `IF(I9="","no design",…)`, or fewer times than velocities. */
const MISSING = {
  design: /(\$?[A-Z]{1,3}\$?\d{1,7})="","no design"/i,
  size: /(\$?[A-Z]{1,3}\$?\d{1,7})="","no size"/i,
  time: /COUNT\([^()]*\)=COUNT\(([^()]*)\)\),"no time"/i,
} as const;

function inGap(index: WorkbookIndex, formula: PlacedFormula): readonly Draft[] {
  if (!formula.text.includes('"no ')) return [];
  const shown = index.valueAt(formula.sheet, formula.row, formula.column);
  const gap = typeof shown === "string" ? (GAP.exec(shown)?.[1] as keyof typeof MISSING | undefined) : undefined;
  if (gap === undefined) return [];
  const [, cells = ""] = MISSING[gap].exec(formula.text) ?? [];
  const reference = readReference(cells, formula.row, formula.column);
  const missing = reference && index.resolve({ reference }, formula);
  const at = missing ?? { sheet: formula.sheet, range: oneCell(formula.row, formula.column) };
  if (gap === "design") return [draft(at.sheet, at.range.firstRow, at.range.firstColumn, false, formula)];
  const what = gap === "size" ? "the size of the opening" : "the time of a sweep";
  return [
    {
      kind: "unfinished-row",
      severity: "warning",
      isUnfinished: true,
      sheet: at.sheet,
      range: at.range,
      problem: `Readings were taken, but ${what} is missing in ${spellBlock(index, at, at.sheet)}, so there is no airflow.`,
      action: gap === "size" ? "Type the clear width and height, or the diameter." : "Type the seconds of each sweep.",
    },
  ];
}

/** Airflows without a design to set them against, and rows that say of themselves what they lack. */
export function checkDesigns(index: WorkbookIndex): readonly Draft[] {
  return [
    ...index.calls.flatMap((call) => inCall(index, call)),
    ...index.formulas.flatMap((formula) => [...inQuotient(index, formula), ...inGap(index, formula)]),
  ];
}
