import { type CellRange, formatRange, isInRange, parseAddress, parseRange } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import type { CellFormula, Sheet } from "../sheet.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import type { CellEdit } from "./edits.js";
import { hasLoneSurrogate, valueProblem } from "./value-xml.js";

/** A block of cells that one formula fills: an array formula or a what-if table. */
export interface FilledRange {
  readonly range: CellRange;
  /** The cell that holds the formula. */
  readonly row: number;
  readonly column: number;
}

/** The blocks of several cells that array formulas and what-if tables of a sheet fill. */
export function filledRangesOf(sheet: Sheet): readonly FilledRange[] {
  const filled: FilledRange[] = [];
  for (const { kind, range: text, row, column } of sheet.cells.formulas) {
    if ((kind !== "array" && kind !== "dataTable") || text === undefined || !text.includes(":")) continue;
    const range = parseRange(text);
    if (range !== undefined && formatRange(range).includes(":")) filled.push({ range, row, column });
  }
  return filled;
}

/**
 * Refuses an edit that would harm the workbook.
 *
 * @param sheet - The sheet
 * @param edit - The edit
 * @param formulaKind - How the cell's formula is stored, undefined when it has none
 * @param filledRanges - What array formulas and what-if tables go on filling
 * @throws {WorkbookFileError} Saying which cell and what to do instead
 */
export function checkEdit(
  sheet: Sheet,
  edit: CellEdit,
  formulaKind: CellFormula["kind"] | undefined,
  filledRanges: readonly FilledRange[],
): void {
  const refuse = (problem: string, advice: string): WorkbookFileError => {
    const place = `${sheet.workbook.fileName}, sheet “${sheet.name}”, cell ${edit.address}`;
    return new WorkbookFileError("refused-edit", place, problem, advice);
  };
  const position = parseAddress(edit.address);
  if (position === undefined) throw refuse("is not an address", "Write it like B7, up to XFD1048576.");
  const { row, column } = position;
  const problem = valueProblem(edit.kind === "formula" ? edit.result : edit.value);
  if (problem !== undefined) throw refuse(problem, "Give it a number, a shorter text, or leave it blank.");
  const filled = filledRanges.find(({ range }) => isInRange(range, row, column))?.range;
  const hasFormula = formulaKind !== undefined;

  if (edit.kind === "result") {
    if (hasFormula || filled !== undefined) return;
    throw refuse("holds no formula, so it has no result to store", "Give it a value instead.");
  }
  if (filled !== undefined && !hasFormula) {
    const advice = "Change the formula in the first cell of that block.";
    throw refuse(`is filled by the formula of ${formatRange(filled)}`, advice);
  }
  if (formulaKind === "dataTable") {
    throw refuse("belongs to a what-if table", "Change the table in the spreadsheet program.");
  }
  const merged = sheet.mergedRanges.find((range) => isInRange(range, row, column));
  if (merged !== undefined && (row !== merged.firstRow || column !== merged.firstColumn)) {
    throw refuse(`is hidden under the merged cells ${formatRange(merged)}`, "Write to their first cell.");
  }
  const table = sheet.tables.find(({ range }) => isInRange(range, row, column));
  if (table !== undefined && row < table.range.firstRow + table.headerRows) {
    const advice = "Rename the column in the spreadsheet program, which keeps table and heading alike.";
    throw refuse(`is a heading of the table ${table.name}`, advice);
  }
  if (edit.kind === "value") {
    if (hasFormula && edit.formula !== "replace") {
      throw refuse("holds a formula", "Change the cells that the formula reads, or ask for it to be replaced.");
    }
    return;
  }
  if (edit.formula === "" || edit.formula.startsWith("=") || hasLoneSurrogate(edit.formula)) {
    throw refuse("cannot take this formula", "Spell it without the equals sign, in whole characters.");
  }
  if (edit.formula.length > WORKBOOK_LIMITS.formulaLength) {
    throw refuse(
      `cannot take a formula above ${WORKBOOK_LIMITS.formulaLength} characters`,
      "Split it over several cells.",
    );
  }
  if (edit.range !== undefined && !startsAt(edit.range, row, column)) {
    throw refuse(`cannot fill ${edit.range}`, "The range of an array formula starts at its own cell.");
  }
}

function startsAt(range: string, row: number, column: number): boolean {
  const parsed = parseRange(range);
  return parsed !== undefined && parsed.firstRow === row && parsed.firstColumn === column;
}
