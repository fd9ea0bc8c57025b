import { WORKBOOK_LIMITS } from "../limits.js";

/** First and last row of a block. */
export interface RowSpan {
  readonly first: number;
  readonly last: number;
}

/** How rows of one sheet come and go. */
export interface RowChange {
  /** The sheet, as the workbook spells it. */
  readonly sheet: string;
  /** The first row that is new, or that goes. */
  readonly at: number;
  /** How many rows are new and push the rest down; 0 where rows that are there already join a table. */
  readonly inserted: number;
  /** How many rows go. */
  readonly deleted: number;
  /** How many rows from `at` on are to be like the model row: as many as are inserted, or as join a table. */
  readonly added: number;
  /** The row after which new rows are made, counted before the change; undefined for none. */
  readonly model: number | undefined;
  /** The list to which the new rows belong: blocks that begin or end with its rows take them in. */
  readonly list: RowList | undefined;
  /** Rows that change places among themselves, and where each of them goes; nothing comes or goes then. */
  readonly order?: RowOrder;
}

/** Rows that change places: `to[0]` is the row to which the first of them goes. */
export interface RowOrder extends RowSpan {
  readonly to: readonly number[];
}

/** Rows and columns of a list, headings and totals left out, before the change. */
export interface RowList extends RowSpan {
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** Where a row stands after the change; undefined where it is gone or pushed off the sheet. */
export function movedRow({ at, inserted, deleted, order }: RowChange, row: number): number | undefined {
  if (order !== undefined) return order.to[row - order.first] ?? row;
  if (row < at) return row;
  if (deleted > 0) return row < at + deleted ? undefined : row - deleted;
  return row + inserted > WORKBOOK_LIMITS.rows ? undefined : row + inserted;
}

/** Where a block stands after the change; undefined where nothing is left of it. */
export function movedSpan(change: RowChange, { first, last }: RowSpan): RowSpan | undefined {
  const { at, inserted, deleted, order } = change;
  if (order !== undefined) {
    const row = first === last ? (movedRow(change, first) ?? first) : undefined;
    return row === undefined ? { first, last } : { first: row, last: row };
  }
  if (deleted === 0) {
    const start = movedRow(change, first);
    // What ends with the sheet goes on doing so.
    return start === undefined
      ? undefined
      : { first: start, last: Math.min(last < at ? last : last + inserted, WORKBOOK_LIMITS.rows) };
  }
  const start = first < at ? first : Math.max(at, first - deleted);
  const end = last < at ? last : Math.max(at - 1, last - deleted);
  return start > end ? undefined : { first: start, last: end };
}

/** Whether a block of several rows holds some of the rows that change places, and not all of them. */
export function isTorn({ order }: RowChange, { first, last }: RowSpan): boolean {
  if (order === undefined || first === last) return false;
  return first <= order.last && last >= order.first && !(first <= order.first && last >= order.last);
}

/** The blocks in which the rows of a block stand after the change: several where rows change places. */
export function movedSpans(change: RowChange, span: RowSpan): readonly RowSpan[] {
  if (!isTorn(change, span)) {
    const moved = movedSpan(change, span);
    return moved === undefined ? [] : [moved];
  }
  const rows = Array.from(
    { length: span.last - span.first + 1 },
    (_, index) => movedRow(change, span.first + index) ?? 0,
  );
  const spans: { first: number; last: number }[] = [];
  for (const row of rows.sort((one, other) => one - other)) {
    const last = spans.at(-1);
    if (last !== undefined && row === last.last + 1) last.last = row;
    else spans.push({ first: row, last: row });
  }
  return spans;
}

/** Whether new rows come right behind the last row of the list. */
export function isAtListEnd({ at, list }: RowChange): boolean {
  return list !== undefined && at === list.last + 1;
}

/** Whether new rows come before the first row of the list. */
export function isAtListStart({ at, inserted, list }: RowChange): boolean {
  return list !== undefined && inserted > 0 && at === list.first;
}

/**
 * Where a block of several rows stands after the change, when a block that begins or ends with the list takes in what is
 * new there.
 */
export function grownSpan(change: RowChange, span: RowSpan): RowSpan | undefined {
  const moved = movedSpan(change, span);
  if (moved === undefined) return undefined;
  const { list, added } = change;
  if (list === undefined) return moved;
  const last = isAtListEnd(change) && span.last === list.last ? span.last + added : moved.last;
  const first = isAtListStart(change) && span.first === list.first ? span.first : moved.first;
  return { first, last };
}

/**
 * Where a block of cells that share a rule stands after the change: new rows take over the rules of their model.
 */
export function ruledSpan(change: RowChange, span: RowSpan): RowSpan | undefined {
  const moved = movedSpan(change, span);
  const { at, added, model } = change;
  if (moved === undefined || model === undefined || model < span.first || model > span.last) return moved;
  return { first: Math.min(moved.first, at), last: Math.max(moved.last, at + added - 1) };
}
