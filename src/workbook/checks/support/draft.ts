import { type CellRange, formatRange } from "../../../xlsx/index.js";
import type { CheckKind, Finding } from "../../finding.js";
import type { PlacedFormula } from "../formulas/workbook-index.js";

/** A finding before it is sorted, joined and told of one row once. */
export interface Draft extends Pick<Finding, "severity" | "problem" | "action"> {
  readonly kind: CheckKind;
  readonly sheet: number;
  readonly range: CellRange;
  /** Formulas whose error it explains; that error is then not told again. */
  readonly explains?: readonly PlacedFormula[];
  /** Whether it says that a row was begun and not finished: of a row that is said once. */
  readonly isUnfinished?: boolean;
  /** Whether it says that a result is wrong and not why. */
  readonly lacksCause?: boolean;
  /** How a formula differs from its neighbors, in sentences that begin with a space. */
  readonly difference?: string;
}

export function oneCell(row: number, column: number): CellRange {
  return { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

/** Items under the key that each has, in their order. */
export function grouped<Item, Key>(
  items: Iterable<Item>,
  keyOf: (item: Item) => Key,
): ReadonlyMap<Key, readonly Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Covers cells with as few blocks as rows and columns allow: cells side by side first, then equal rows below one another. */
export function coveringRanges(cells: readonly Place[]): readonly CellRange[] {
  const sorted = [...cells].sort((a, b) => a.row - b.row || a.column - b.column);
  const rows: CellRange[] = [];
  for (const { row, column } of sorted) {
    const last = rows.at(-1);
    if (last?.firstRow === row && last.lastColumn + 1 === column)
      rows[rows.length - 1] = { ...last, lastColumn: column };
    else rows.push(oneCell(row, column));
  }
  const blocks = new Map<string, CellRange>();
  const done: CellRange[] = [];
  for (const row of rows) {
    const key = `${row.firstColumn}:${row.lastColumn}`;
    const above = blocks.get(key);
    if (above?.lastRow === row.firstRow - 1) blocks.set(key, { ...above, lastRow: row.lastRow });
    else {
      if (above !== undefined) done.push(above);
      blocks.set(key, row);
    }
  }
  return [...done, ...blocks.values()].sort((a, b) => a.firstRow - b.firstRow || a.firstColumn - b.firstColumn);
}

/** The places of a block, row by row. */
export function placesIn({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): readonly Place[] {
  const places: Place[] = [];
  for (let row = firstRow; row <= lastRow; row += 1) {
    for (let column = firstColumn; column <= lastColumn; column += 1) places.push({ row, column });
  }
  return places;
}

/** `1 cell` or `3 cells`. */
export function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? "" : "s"}`;
}

export function spelled(range: CellRange): string {
  return formatRange(range);
}

/** A number as a sentence shows it. */
export function shownNumber(value: number): string {
  return String(Number(value.toPrecision(4)));
}
