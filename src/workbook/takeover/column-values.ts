import { type SheetSource, shownCell } from "../source/index.js";

/** What stands below a heading, as far as it was looked at. */
export interface ColumnValues {
  readonly numbers: readonly number[];
  readonly texts: readonly string[];
  /** How many of the cells hold a formula. */
  readonly formulaCount: number;
  /** The first row that holds a formula; 0 for none. */
  readonly formulaRow: number;
  readonly filledCount: number;
}

/** So many rows show what a column holds. */
const LOOKED_AT = 60;

/** Looks at the cells of a column below its heading. */
export function columnValues(source: SheetSource, column: number, headerRow: number, lastRow: number): ColumnValues {
  const numbers: number[] = [];
  const texts: string[] = [];
  let [formulaCount, formulaRow, seen] = [0, 0, 0];
  for (const row of source.rowsFrom(headerRow + 1)) {
    if (row > lastRow || seen >= LOOKED_AT) break;
    seen += 1;
    const cell = shownCell(source, row, column);
    if (source.hasFormula(row, column)) {
      formulaCount += 1;
      if (formulaRow === 0) formulaRow = row;
    }
    if (cell.kind === "number") numbers.push(cell.value);
    if (cell.kind === "text") texts.push(cell.value);
  }
  return { numbers, texts, formulaCount, formulaRow, filledCount: numbers.length + texts.length };
}

/** The middle of numbers without regard to their sign; undefined where there are none. */
export function middleOf(numbers: readonly number[]): number | undefined {
  const sorted = numbers.map(Math.abs).sort((one, other) => one - other);
  return sorted[Math.floor((sorted.length - 1) / 2)];
}
