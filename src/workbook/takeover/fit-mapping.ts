import { columnLetters } from "../../xlsx/index.js";
import type { ColumnMapping, MappedColumn } from "../lists/index.js";
import type { SheetSource } from "../source/index.js";
import { contentWord } from "./content-words.js";
import { columnHeading, upperRows } from "./heading-cells.js";
import { wholeSide } from "./heading-rows.js";
import { plainWords } from "./read-own-heading.js";

/** A mapping as it fits a sheet of another workbook of the same make, or what of it does not fit. */
export type FittedMapping = { readonly mapping: ColumnMapping } | { readonly unfit: readonly string[] };

const MOST_ROWS = 80;

/** What a heading is known by: its words, or its signs where it has none, such as %. */
const known = (shown: string) => plainWords(shown) || shown.trim();

/** The headings of a row, by their words: the same heading several times keeps its columns in their order. */
function headingsOf(source: SheetSource, row: number): ReadonlyMap<string, readonly number[]> {
  const side = wholeSide(source);
  const uppers = upperRows(source, row, side);
  const found = new Map<string, number[]>();
  for (let column = 1; column <= side.lastColumn; column += 1) {
    const words = known(columnHeading(source, row, uppers, column).shown);
    if (words !== "") found.set(words, [...(found.get(words) ?? []), column]);
  }
  return found;
}

interface Wanted {
  readonly words: string;
  /** The how manieth column with these words it is, from 0. */
  readonly index: number;
  readonly column: MappedColumn;
  readonly shown: string;
}

function wantedOf(source: SheetSource, { headerRow, columns }: ColumnMapping): readonly Wanted[] {
  const uppers = upperRows(source, headerRow, wholeSide(source));
  const headings = headingsOf(source, headerRow);
  return columns.map((column) => {
    const { shown } = columnHeading(source, headerRow, uppers, column.column);
    const words = known(shown);
    return { words, index: (headings.get(words) ?? []).indexOf(column.column), column, shown };
  });
}

function placed(
  wanted: readonly Wanted[],
  headings: ReadonlyMap<string, readonly number[]>,
): readonly (MappedColumn | undefined)[] {
  return wanted.map(({ words, index, column }) => {
    const at = headings.get(words)?.[Math.max(index, 0)];
    return at === undefined ? undefined : { ...column, column: at };
  });
}

/**
 * Finds the columns of a mapping on another sheet of the same make, by the same headings, wherever they stand.
 *
 * @param from - The sheet of the mapping
 * @param onto - The other sheet
 * @param list - The number that the mapping gets there
 */
export function fitMapping(from: SheetSource, mapping: ColumnMapping, onto: SheetSource, list: number): FittedMapping {
  const all = wantedOf(from, mapping);
  const wanted = all.filter(({ words }) => words !== "");
  let best: { row: number; columns: readonly (MappedColumn | undefined)[]; count: number } = {
    row: 0,
    columns: [],
    count: 0,
  };
  for (const row of onto.rowsFrom(1)) {
    if (row > MOST_ROWS) break;
    const columns = placed(wanted, headingsOf(onto, row));
    const count = columns.filter((one) => one !== undefined).length;
    if (count > best.count || (count === best.count && count > 0 && row === mapping.headerRow))
      best = { row, columns, count };
  }
  const unfit = wanted.flatMap(({ shown, column }, index) =>
    best.columns[index] === undefined
      ? [`no heading “${shown}” for the ${contentWord(column)} (there in column ${columnLetters(column.column)})`]
      : [],
  );
  const found = best.columns.flatMap((one) => one ?? []);
  // A column without a heading is the same column where every other one is in its place.
  const isInPlace = found.every((one, index) => one.column === wanted[index]?.column.column);
  const unnamed = all.filter(({ words }) => words === "").map(({ column }) => column);
  const lost = isInPlace ? [] : unnamed;
  const reasons = lost.map(
    (column) => `column ${columnLetters(column.column)} there (${contentWord(column)}) has no heading to find it by`,
  );
  if (unfit.length + reasons.length > 0) return { unfit: [...unfit, ...reasons] };
  const columns = [...found, ...unnamed];
  return { mapping: { ...mapping, list, sheet: onto.name, headerRow: best.row, lastRow: null, columns } };
}
