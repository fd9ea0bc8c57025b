import type { SheetSource } from "../source/index.js";
import { contentOf, fits } from "./column-content.js";
import { columnValues } from "./column-values.js";
import { columnHeading, hasHeading, MOST_HEADING_ROWS, type Side, upperRows } from "./heading-cells.js";
import { plainWords } from "./read-own-heading.js";

const MOST_COLUMNS = 120;
/** Nobody heads a list with fewer columns that are understood. */
const LEAST_UNDERSTOOD = 3;
/** So many rows with cells side by side show which columns of a sheet are empty, among the first rows of it. */
const ROWS_LOOKED_AT = 300;
const FIRST_ROWS = 3000;

/** A row that heads a list, and the columns that it heads. */
export interface FoundHeadings extends Side {
  readonly row: number;
}

interface Score {
  readonly score: number;
  readonly hasOutlet: boolean;
}

const NO_HEADINGS: Score = { score: 0, hasOutlet: false };

/** How much of a row, with what is above it, is understood as headings of a list of outlets. */
function scoreOf(source: SheetSource, row: number, { firstColumn, lastColumn }: Side): Score {
  let [texts, figures] = [0, 0];
  for (let column = firstColumn; column <= lastColumn; column += 1) {
    if (hasHeading(source, row, column)) texts += 1;
    else if (typeof source.valueAt(row, column) === "number") figures += 1;
  }
  // A row of figures is an outlet, whatever its words are.
  if (texts < 2 || figures * 2 >= texts) return NO_HEADINGS;
  const uppers = upperRows(source, row, { firstColumn, lastColumn });
  const meanings = new Set<string>();
  let [airflows, measured, whole] = [0, 0, 0];
  for (let column = firstColumn; column <= lastColumn; column += 1) {
    const { read } = columnHeading(source, row, uppers, column);
    const content = read === undefined ? null : contentOf(read.meaning, read.state);
    if (read === undefined || (content === null && read.meaning !== "average")) continue;
    const values = columnValues(source, column, row, Math.min(source.lastRow, row + 30));
    if (content !== null && !fits(content, values) && content.key !== "area" && content.key !== "kind") continue;
    meanings.add(
      content === null ? "average" : content.key === "reading" ? `${content.key} ${content.state}` : content.key,
    );
    if (read.isWhole) whole += 1;
    const key = content?.key ?? "";
    if (["airflow", "found", "left", "design", "reading"].includes(key)) airflows += 1;
    if (["airflow", "found", "left", "reading"].includes(key)) measured += 1;
  }
  // Single readings that are told apart speak for the row in which their numbers are.
  if (measured === 0 || meanings.size < LEAST_UNDERSTOOD) return NO_HEADINGS;
  return { score: meanings.size + whole / 100 + airflows / 10, hasOutlet: meanings.has("outlet") };
}

/** Rows that head a list: of rows close together the one that is best understood. */
function scoredRows(source: SheetSource, side: Side): readonly (Score & { readonly row: number })[] {
  const scored: (Score & { row: number })[] = [];
  for (const row of source.rowsFrom(1)) {
    const one = scoreOf(source, row, side);
    if (one.score === 0) continue;
    const last = scored.at(-1);
    if (last === undefined || row - last.row >= MOST_HEADING_ROWS) scored.push({ row, ...one });
    else if (one.score >= last.score) scored[scored.length - 1] = { row, ...one };
  }
  return scored;
}

/** The columns of a sheet that anything is looked for in. */
export const wholeSide = ({ lastColumn }: SheetSource): Side => ({
  firstColumn: 1,
  lastColumn: Math.min(lastColumn, MOST_COLUMNS),
});

/** Runs of columns with something in them; a title alone in its row may be anywhere. */
function bandsOf(source: SheetSource): readonly Side[] {
  const { lastColumn } = wholeSide(source);
  const isUsed = new Set<number>();
  let [looked, passed] = [0, 0];
  for (const row of source.rowsFrom(1)) {
    if (looked >= ROWS_LOOKED_AT || passed >= FIRST_ROWS) break;
    passed += 1;
    const filled: number[] = [];
    for (let column = 1; column <= lastColumn; column += 1) {
      if (source.valueAt(row, column) !== null || source.formulaAt(row, column) !== undefined) filled.push(column);
    }
    if (filled.length < 2) continue;
    looked += 1;
    for (const column of filled) isUsed.add(column);
  }
  const bands: Side[] = [];
  for (const column of [...isUsed].sort((one, other) => one - other)) {
    const last = bands.at(-1);
    if (last?.lastColumn === column - 1) bands[bands.length - 1] = { ...last, lastColumn: column };
    else bands.push({ firstColumn: column, lastColumn: column });
  }
  return bands;
}

/** The parts of a sheet side by side that have lists of their own; the whole sheet where there are not several. */
function sidesOf(source: SheetSource): readonly Side[] {
  const whole = wholeSide(source);
  const bands = bandsOf(source);
  const heads = bands.map((band) => bands.length > 1 && scoredRows(source, band).some(({ hasOutlet }) => hasOutlet));
  if (heads.filter(Boolean).length < 2) return [whole];
  const sides: Side[] = [];
  bands.forEach((band, index) => {
    const last = sides.at(-1);
    // What heads no list belongs to the list on its left.
    if (heads[index] === true || last === undefined) sides.push(band);
    else sides[sides.length - 1] = { ...last, lastColumn: band.lastColumn };
  });
  const [first, second, ...others] = sides;
  if (heads[0] === true || first === undefined || second === undefined) return sides;
  return [{ firstColumn: first.firstColumn, lastColumn: second.lastColumn }, ...others];
}

/** Headings that begin anew within their row are those of a list beside: Grille, CFM, Design, Grille, CFM, Design. */
function sidesInRow(source: SheetSource, row: number, side: Side): readonly Side[] {
  const uppers = upperRows(source, row, side);
  const words = Array.from({ length: side.lastColumn - side.firstColumn + 1 }, (_, index) =>
    plainWords(columnHeading(source, row, uppers, side.firstColumn + index).shown),
  );
  const first = words.findIndex((word) => word !== "");
  const starts = words.flatMap((word, index) => (first >= 0 && word === words[first] ? [index] : []));
  if (starts.length < 2) return [side];
  const sides = starts.map((start, index) => ({
    firstColumn: index === 0 ? side.firstColumn : side.firstColumn + start,
    lastColumn: side.firstColumn + (starts[index + 1] ?? words.length) - 1,
  }));
  return sides.every((one) => scoreOf(source, row, one).hasOutlet) ? sides : [side];
}

/** Rows that head lists, those of lists side by side from the left to the right. */
export function headingRows(source: SheetSource): readonly FoundHeadings[] {
  return sidesOf(source).flatMap((side) =>
    scoredRows(source, side).flatMap(({ row }) => sidesInRow(source, row, side).map((one) => ({ row, ...one }))),
  );
}
