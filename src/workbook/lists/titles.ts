import { type SheetSource, type ShownCell, shownCell } from "../source/index.js";
import type { TitleUse } from "./column-mapping.js";
import type { OutletList } from "./outlet-list.js";
import { nameInTitle, titleUse } from "./title-words.js";
import { TOTAL_WORDS } from "./total-words.js";

/** A text that is alone in its row, over or between the outlets of a list. */
export interface ListTitle {
  readonly row: number;
  readonly text: string;
}

/** The part of a sheet in which a list is. */
export type ListArea = Pick<OutletList, "headerRow" | "lastRow" | "firstColumn" | "lastColumn">;

/** A title may be so many rows above the headings, rows of headings among them. */
const ROWS_ABOVE = 6;

/** What a row holds within the columns of a list, and what is merged over them from a list to the left. */
function cellsOf(source: SheetSource, row: number, { firstColumn, lastColumn }: ListArea): readonly ShownCell[] {
  const last = Math.min(lastColumn, source.lastColumn);
  const filled: ShownCell[] = [];
  for (const range of source.mergedRanges) {
    const reachesIn = range.firstColumn < firstColumn && range.lastColumn >= firstColumn;
    if (range.firstRow !== row || !reachesIn) continue;
    const cell = shownCell(source, row, range.firstColumn);
    if (cell.kind !== "blank") filled.push(cell);
  }
  for (let column = firstColumn; column <= last; column += 1) {
    const cell = shownCell(source, row, column);
    if (cell.kind !== "blank") filled.push(cell);
  }
  return filled;
}

const loneText = (cells: readonly ShownCell[]): string | undefined => {
  const [only] = cells;
  return cells.length === 1 && only?.kind === "text" && !TOTAL_WORDS.test(only.value) ? only.value : undefined;
};

/** The title over the headings: the nearest text that is alone in its row, with nothing but headings in between. */
function titleAbove(source: SheetSource, area: ListArea): readonly ListTitle[] {
  for (let row = area.headerRow - 1; row >= Math.max(1, area.headerRow - ROWS_ABOVE); row -= 1) {
    const cells = cellsOf(source, row, area);
    const text = loneText(cells);
    if (text !== undefined) return [{ row, text }];
    // Numbers belong to something else, such as another list.
    if (cells.some(({ kind }) => kind !== "text")) return [];
  }
  return [];
}

/** Texts that are alone in their rows, over and between the outlets of a list, from the top down. */
export function titlesIn(source: SheetSource, area: ListArea): readonly ListTitle[] {
  const titles = [...titleAbove(source, area)];
  for (const row of source.rowsFrom(area.headerRow + 1)) {
    if (row > area.lastRow) break;
    const text = loneText(cellsOf(source, row, area));
    if (text !== undefined) titles.push({ row, text });
  }
  return titles;
}

const KNOWN = new WeakMap<OutletList, readonly ListTitle[]>();

/** The titles of a list that name what its titles are said to name; where no word of any is known, every one does. */
function namingTitles(list: OutletList, use: TitleUse): readonly ListTitle[] {
  const known = KNOWN.get(list);
  if (known !== undefined) return known;
  const all = titlesIn(list.source, list);
  const worded = all.filter(({ text }) => titleUse(text) === use);
  const named = (worded.length > 0 ? worded : all).map(({ row, text }) => ({ row, text: nameInTitle(text, use) }));
  KNOWN.set(list, named);
  return named;
}

/** What the title over a row names; "" where there is none. */
export function titleOver(list: OutletList, row: number, use: TitleUse): string {
  if (list.stated.titles !== use) return "";
  return namingTitles(list, use).findLast((title) => title.row < row)?.text ?? "";
}
