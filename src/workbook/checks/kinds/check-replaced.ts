import { columnLetters, isInRange } from "../../../xlsx/index.js";
import type { SourceValue } from "../../source/index.js";
import { allCalls } from "../formulas/parse-formula.js";
import { callsVane, cellOf, isEmptyValue, type PlacedFormula, type WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, grouped, oneCell, shownNumber } from "../support/draft.js";
import { LEAST_FORMULAS_OF_A_COLUMN, MOST_OVERWRITTEN_IN_A_RUN } from "../thresholds.js";

/** The formulas of a column in a row's neighbourhood. */
type Column = readonly PlacedFormula[];

/** A constant and the formula of the neighbour that reads as its own should. */
interface Overwritten {
  readonly row: number;
  readonly column: number;
  readonly neighbour: PlacedFormula;
}

function rowsBetween(from: number, to: number): readonly number[] {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}

/** Rows without a formula between two formulas of the same form. */
function gaps(column: Column): readonly Overwritten[] {
  return column.flatMap((above, at) => {
    const below = column[at + 1];
    if (below === undefined || below.form !== above.form || below.row - above.row > MOST_OVERWRITTEN_IN_A_RUN + 1)
      return [];
    return rowsBetween(above.row + 1, below.row - 1).map((row) => ({ row, column: above.column, neighbour: above }));
  });
}

/** The row above and the row below every run of formulas of one form. */
function ends(column: Column): readonly Overwritten[] {
  return column.flatMap((formula, at) => {
    const [before, after] = [column[at - 1], column[at + 1]];
    const goesOn = after?.form === formula.form && after.row === formula.row + 1;
    const wentOn = before?.form === formula.form && before.row === formula.row - 1;
    const found: Overwritten[] = [];
    if (goesOn && !wentOn) found.push({ row: formula.row - 1, column: formula.column, neighbour: formula });
    if (wentOn && !goesOn) found.push({ row: formula.row + 1, column: formula.column, neighbour: formula });
    return found;
  });
}

/** Whether a row belongs to its neighbour's: another column has the same formula in both. */
function isSameBlock(
  index: WorkbookIndex,
  sheet: number,
  { row, column, neighbour }: Overwritten,
  columns: Iterable<number>,
): boolean {
  for (const other of columns) {
    if (other === column) continue;
    const here = index.formulaAt(sheet, row, other);
    if (here !== undefined && here.form === index.formulaAt(sheet, neighbour.row, other)?.form) return true;
  }
  return false;
}

/** Words that a verdict's formula gives, or a call that gives one. */
function givesVerdict(index: WorkbookIndex, neighbour: PlacedFormula): boolean {
  if (callsVane(neighbour) && allCalls(index.parsed(neighbour)).some(({ id }) => /\.(?:VERDICT|CHECK)$/.test(id)))
    return true;
  return /"(?:low|high|within)"/i.test(neighbour.text);
}

function draft(
  index: WorkbookIndex,
  sheet: number,
  { row, column, neighbour }: Overwritten,
  value: SourceValue,
): Draft {
  const shown = typeof value === "number" ? shownNumber(value) : `“${String(value).slice(0, 40)}”`;
  const range = oneCell(row, column);
  const from = cellOf(neighbour);
  if (givesVerdict(index, neighbour)) {
    return {
      kind: "verdict-overridden",
      severity: "error",
      sheet,
      range,
      problem: `The verdict ${shown} was typed over the formula that its column has.`,
      action: `Copy the formula from ${from}, and put what the formula cannot know into a note.`,
    };
  }
  return {
    kind: "formula-replaced",
    severity: "error",
    sheet,
    range,
    problem: `${shown} was typed over the formula that column ${columnLetters(column)} has, so it no longer follows its inputs.`,
    action: `Copy the formula from ${from}, and correct the inputs if its result is wrong.`,
  };
}

/** Constants that stand where the formulas around them read the same. */
export function checkReplaced(index: WorkbookIndex): readonly Draft[] {
  const bySheet = grouped(index.formulas, ({ sheet }) => sheet);
  return [...bySheet].flatMap(([sheet, formulas]) => {
    const columns = grouped(formulas, ({ column }) => column);
    const filled = formulas.flatMap(({ fills }) => fills ?? []);
    return [...columns.values()].flatMap((column) => {
      if (column.length < LEAST_FORMULAS_OF_A_COLUMN) return [];
      const between = gaps(column).filter((found) => isDoubtful(index, sheet, found, columns));
      const outside = ends(column).filter((found) => isSameBlock(index, sheet, found, columns.keys()));
      return [...between, ...outside].flatMap((found) => {
        if (index.formulaAt(sheet, found.row, found.column) !== undefined) return [];
        const value = index.valueAt(sheet, found.row, found.column);
        if (isEmptyValue(value) || typeof value === "object") return [];
        if (filled.some((range) => isInRange(range, found.row, found.column))) return [];
        return [draft(index, sheet, found, value)];
      });
    });
  });
}

/** A text in a row that has no formula at all is a heading within the column; a number, or a row like the others, is not. */
function isDoubtful(
  index: WorkbookIndex,
  sheet: number,
  found: Overwritten,
  columns: ReadonlyMap<number, Column>,
): boolean {
  const value = index.valueAt(sheet, found.row, found.column);
  return typeof value === "number" || isSameBlock(index, sheet, found, columns.keys()) || columns.size === 1;
}
