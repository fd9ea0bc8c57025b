import { type CellRange, parseRange } from "../address.js";
import { changeReferences } from "../formula/change-references.js";
import { placeOf, readOptionalPart } from "../package/read-part.js";
import { cellsIn } from "../read/cells.js";
import { findSheetEntry, readSheet } from "../read/read-sheet.js";
import type { Workbook } from "../workbook.js";
import { readXml } from "../xml/read-xml.js";
import { partsOfType } from "./structure-context.js";

/** A block of a chart: one column of a sheet. */
interface Series {
  readonly sheet: string;
  readonly range: CellRange;
}

/** Rows that other rows of a chart have more, or fewer, than before. */
export interface Misfit {
  readonly sheet: string;
  /** The last row of what the chart shows of that sheet. */
  readonly lastRow: number;
  /** How many rows are missing there; negative for too many. */
  readonly rows: number;
  /** Whether the rows there hold nothing but what the chart shows. */
  readonly isAlone: boolean;
}

function seriesOf(formula: string): Series | undefined {
  let found: Series | undefined;
  let references = 0;
  changeReferences(formula, ({ sheet, lastSheet, columns, rows }) => {
    references += 1;
    const [column, last = column] = columns.map((letters) => letters.replaceAll("$", ""));
    const [first, end] = rows;
    const isColumn = column !== undefined && column === last && first !== undefined && end !== undefined;
    const range = isColumn ? parseRange(`${column}${first.row}:${column}${end.row}`) : undefined;
    if (sheet !== undefined && lastSheet === undefined && range !== undefined) found = { sheet, range };
    return undefined;
  });
  return references === 1 ? found : undefined;
}

/** The blocks of each chart, in the order of its part. */
function charts(workbook: Workbook): ReadonlyMap<string, readonly (Series | undefined)[]> {
  const found = new Map<string, readonly (Series | undefined)[]>();
  for (const partName of partsOfType(workbook, /drawingml\.chart\+xml/)) {
    const bytes = readOptionalPart(workbook.archive, partName);
    if (bytes === undefined) continue;
    const formulas: string[] = [];
    let isFormula = false;
    readXml(bytes, placeOf(workbook.archive, partName), {
      open(name) {
        isFormula = name === "f";
        if (isFormula) formulas.push("");
      },
      text(chunk) {
        if (isFormula) formulas[formulas.length - 1] += chunk;
      },
      close() {
        isFormula = false;
      },
    });
    found.set(partName, formulas.map(seriesOf));
  }
  return found;
}

const rowsOf = ({ range }: Series): number => range.lastRow - range.firstRow + 1;

/**
 * Finds what a change of rows left behind in charts: lines over the whole chart, such as limits, whose figures stand on
 * another sheet in as many rows as the list had.
 *
 * @param before - The workbook before the change
 * @param after - The same after it
 * @param changed - The sheet whose rows changed
 */
export function misfitsOf(before: Workbook, after: Workbook, changed: string): readonly Misfit[] {
  const misfits = new Map<string, Misfit>();
  const now = charts(after);
  const isChanged = ({ sheet }: Series): boolean => sheet.toLowerCase() === changed.toLowerCase();
  for (const [partName, old] of charts(before)) {
    const blocks = old.map((series, index) => ({ old: series, now: now.get(partName)?.[index] }));
    const grown = blocks.find(
      (block) =>
        block.old !== undefined &&
        block.now !== undefined &&
        isChanged(block.old) &&
        rowsOf(block.old) !== rowsOf(block.now),
    );
    if (grown?.old === undefined || grown.now === undefined) continue;
    const [had, has] = [rowsOf(grown.old), rowsOf(grown.now)];
    const left = blocks.flatMap(({ old: series }) =>
      series !== undefined && !isChanged(series) && had > 1 && rowsOf(series) === had ? [series] : [],
    );
    for (const { sheet, range } of left) {
      const entry = findSheetEntry(after, sheet);
      if (entry?.kind !== "worksheet") continue;
      const columns = left
        .filter((other) => other.sheet === sheet && other.range.firstRow === range.firstRow)
        .map((other) => other.range.firstColumn);
      const held = [...cellsIn(readSheet(after, entry.name), { ...range, firstColumn: 1, lastColumn: 16_384 })];
      const isAlone = held.every(
        ({ value, formula, column }) => (value === null && formula === undefined) || columns.includes(column),
      );
      const misfit = { sheet: entry.name, lastRow: range.lastRow, rows: has - had, isAlone };
      misfits.set(`${entry.name}:${range.firstRow}:${range.lastRow}`, misfit);
    }
  }
  return [...misfits.values()];
}
