import { columnNumber } from "../address.js";
import {
  changeReferences,
  type FoundReference,
  type ReferenceChange,
  type ReferenceRow,
} from "../formula/change-references.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { grownSpan, isTorn, movedRow, movedSpan, type RowChange, type RowSpan } from "./row-change.js";

/** Where a formula stands: on a sheet, and in a row where it is a cell's. */
export interface FormulaPlace {
  readonly sheet: string | undefined;
  readonly row: number | undefined;
  readonly column?: number;
}

/** A formula after rows came or went. */
export interface ChangedFormula {
  readonly text: string;
  /** Whether it reads more rows or fewer than before, or lost some. */
  readonly isResized: boolean;
  /** References through several sheets, or row by row, that cannot follow; as they are spelled. */
  readonly stuck: boolean;
}

/** Which sheets stand between two, in the order of the workbook, those two included; in lower case. */
export type SheetsBetween = (first: string, last: string) => readonly string[];

const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Whether a reference is to the sheet whose rows change: "among" where that is one of several. */
export function concerns(
  { sheet, lastSheet }: FoundReference,
  own: string | undefined,
  changed: string,
  between: SheetsBetween,
): "yes" | "no" | "among" {
  if (sheet === undefined) return own !== undefined && same(own, changed) ? "yes" : "no";
  if (lastSheet === undefined || same(sheet, lastSheet)) return same(sheet, changed) ? "yes" : "no";
  return between(sheet, lastSheet).includes(changed.toLowerCase()) ? "among" : "no";
}

function columnsOf({ columns }: FoundReference): readonly [number, number] {
  const [first, last] = [columns[0], columns.at(-1)].map((letters) =>
    letters === undefined ? undefined : columnNumber(letters.replace("$", "")),
  );
  if (first === undefined || last === undefined) return [1, WORKBOOK_LIMITS.columns];
  return [Math.min(first, last), Math.max(first, last)];
}

/** Whether a block reads the list: it has columns of it. */
function readsList(reference: FoundReference, { list }: RowChange): boolean {
  if (list === undefined) return false;
  const [first, last] = columnsOf(reference);
  return first <= list.lastColumn && last >= list.firstColumn;
}

/**
 * Whether a block in a row of the list ends, or begins, with that very row, as a running total does: it stays with its row
 * instead of taking in new ones.
 */
function runsAlong(reference: FoundReference, place: FormulaPlace, change: RowChange): boolean {
  const { list, sheet } = change;
  if (list === undefined || place.row === undefined || place.sheet === undefined || !same(place.sheet, sheet))
    return false;
  const isInList = place.row >= list.first && place.row <= list.last;
  return isInList && reference.rows.some(({ row, isFixed }) => !isFixed && row === place.row);
}

const inOrder = ([first, last]: readonly ReferenceRow[], span: RowSpan): readonly ReferenceRow[] => {
  if (first === undefined || last === undefined) return first === undefined ? [] : [{ ...first, row: span.first }];
  const isTurned = first.row > last.row;
  return [
    { ...first, row: isTurned ? span.last : span.first },
    { ...last, row: isTurned ? span.first : span.last },
  ];
};

const spanOf = (rows: readonly ReferenceRow[]): RowSpan => {
  const numbers = rows.map(({ row }) => row);
  return { first: Math.min(...numbers), last: Math.max(...numbers) };
};

/**
 * A reference of a row that changes places to rows that do so too: what has no dollar sign stays as far from its row, as in
 * a running total. Undefined for any other.
 */
function goesAlong(
  { rows }: FoundReference,
  { sheet, row }: FormulaPlace,
  change: RowChange,
): readonly ReferenceRow[] | "lost" | undefined {
  const { order } = change;
  if (order === undefined || row === undefined || sheet === undefined || !same(sheet, change.sheet)) return undefined;
  const isInOrder = (one: number) => one >= order.first && one <= order.last;
  // A block that ends with its own row may begin with the headings above.
  const meets = rows.some((end) => isInOrder(end.row)) || rows.every((end) => Math.abs(end.row - row) === 1);
  if (!isInOrder(row) || !meets || rows.every(({ isFixed }) => isFixed)) return undefined;
  const distance = (movedRow(change, row) ?? row) - row;
  const after = rows.map((end) => (end.isFixed ? end : { ...end, row: end.row + distance }));
  return after.every((end) => end.row >= 1) ? after : "lost";
}

function rowsAfter(
  reference: FoundReference,
  place: FormulaPlace,
  change: RowChange,
): readonly ReferenceRow[] | "lost" | "stuck" {
  const along = goesAlong(reference, place, change);
  if (along !== undefined) return along;
  const { rows } = reference;
  const [only] = rows;
  if (rows.length === 1 && only !== undefined) {
    const row = movedRow(change, only.row);
    return row === undefined ? "lost" : [{ ...only, row }];
  }
  const span = spanOf(rows);
  if (isTorn(change, span)) return "stuck";
  const grows = readsList(reference, change) && !runsAlong(reference, place, change);
  const isBlock = span.first < span.last || rows.every(({ isFixed }) => isFixed);
  const after = grows && isBlock ? grownSpan(change, span) : movedSpan(change, span);
  return after === undefined ? "lost" : inOrder(rows, after);
}

const isSameRows = (one: readonly ReferenceRow[], other: readonly ReferenceRow[]): boolean =>
  one.every(({ row }, index) => row === other[index]?.row);

/**
 * Returns a formula as it reads after rows of a sheet came or went: every reference to them follows.
 *
 * @param formula - Without the equals sign
 * @param place - Where it stands, before the change
 * @param change - What happens to which sheet
 * @param between - The order of the sheets, for references through several
 */
export function changeFormula(
  formula: string,
  place: FormulaPlace,
  change: RowChange,
  between: SheetsBetween,
): ChangedFormula {
  let isResized = false;
  let stuck = false;
  const text = changeReferences(formula, (reference): ReferenceChange | undefined => {
    if (reference.rows.length === 0) return undefined;
    const concern = concerns(reference, place.sheet, change.sheet, between);
    if (concern === "no") return undefined;
    const rows = rowsAfter(reference, place, change);
    // A block whose rows change places may be read in their order.
    if (change.order !== undefined && reference.rows.length > 1) isResized = true;
    if (rows !== "lost" && rows !== "stuck" && isSameRows(rows, reference.rows)) return undefined;
    if (concern === "among" || rows === "stuck") {
      stuck = true;
      return undefined;
    }
    if (rows === "lost") {
      isResized = true;
      return "lost";
    }
    const [before, after] = [spanOf(reference.rows), spanOf(rows)];
    if (after.last - after.first !== before.last - before.first) isResized = true;
    return { rows };
  });
  return { text, isResized, stuck };
}

/**
 * Returns the formula of a model row as a new row of the same list has it: what has a dollar sign follows the change, all
 * else is as far from the new row as it was from the model.
 *
 * @param formula - Of the model row, before the change
 * @param from - The model's place, before the change
 * @param to - The new row, after the change
 */
export function formulaForNewRow(
  formula: string,
  from: FormulaPlace & { readonly row: number },
  to: number,
  change: RowChange,
  between: SheetsBetween,
): string {
  const distance = to - from.row;
  return changeReferences(formula, (reference): ReferenceChange | undefined => {
    if (reference.rows.length === 0) return undefined;
    const isConcerned = concerns(reference, from.sheet, change.sheet, between) === "yes";
    const followed = isConcerned ? rowsAfter(reference, from, change) : reference.rows;
    const rows = reference.rows.map((end, index) => {
      if (!end.isFixed) return { ...end, row: end.row + distance };
      return followed === "lost" || followed === "stuck" ? undefined : followed[index];
    });
    const known = rows.filter((end) => end !== undefined);
    if (known.length < rows.length || known.some(({ row }) => row < 1 || row > WORKBOOK_LIMITS.rows)) return "lost";
    return { rows: known };
  });
}

/**
 * Returns a formula that many rows share, as a rule or a column of a table has it, spelled for the first of them.
 *
 * @param formula - Without the equals sign
 * @param rows - The rows that share it, before the change
 * @param after - The same rows after the change
 * @param sheet - The sheet on which they stand
 */
export function changeSharedFormula(
  formula: string,
  rows: RowSpan,
  after: RowSpan,
  sheet: string,
  change: RowChange,
  between: SheetsBetween,
): ChangedFormula {
  let isResized = false;
  let stuck = false;
  const isOwnChange = same(sheet, change.sheet);
  const shift = after.first - rows.first;
  const isSplit = isOwnChange && isParted(change, rows);
  // Where new rows come before the first, the formula is spelled for one of them.
  const lead = isOwnChange && !isSplit ? after.first - (movedRow(change, rows.first) ?? after.first) : 0;
  const text = changeReferences(formula, (reference): ReferenceChange | undefined => {
    if (reference.rows.length === 0) return undefined;
    const concern = concerns(reference, sheet, change.sheet, between);
    const isFixed = reference.rows.every((end) => end.isFixed);
    if (concern === "no") {
      // On another sheet nothing moves; row by row, the rule would lose its place where its own rows part.
      if (!isFixed && isSplit) stuck = true;
      return undefined;
    }
    if (isFixed || concern === "among") {
      const moved = rowsAfter(reference, { sheet, row: undefined }, change);
      if (moved !== "lost" && moved !== "stuck" && isSameRows(moved, reference.rows)) return undefined;
      if (concern === "among" || moved === "stuck") {
        stuck = true;
        return undefined;
      }
      if (moved !== "lost") return { rows: moved };
      isResized = true;
      return "lost";
    }
    const own = reference.rows.map((end) => rowShared(end, rows, { shift, lead, isSplit }, change));
    if (own.includes("stuck")) stuck = true;
    if (own.includes("lost")) return "lost";
    const known = own.filter((end) => end !== "stuck" && end !== "lost");
    if (known.length < own.length || isSameRows(known, reference.rows)) return undefined;
    return { rows: known };
  });
  return { text, isResized, stuck };
}

/** Whether rows come between the rows that share a formula, or some of these go. */
function isParted({ at, inserted, deleted }: RowChange, { first, last }: RowSpan): boolean {
  return deleted > 0 ? at <= last && at + deleted > first : inserted > 0 && at > first && at <= last;
}

/** One corner of a reference that is followed row by row. */
function rowShared(
  end: ReferenceRow,
  rows: RowSpan,
  { shift, lead, isSplit }: { readonly shift: number; readonly lead: number; readonly isSplit: boolean },
  change: RowChange,
): ReferenceRow | "lost" | "stuck" {
  if (end.isFixed) {
    const row = movedRow(change, end.row);
    return row === undefined ? "lost" : { ...end, row };
  }
  if (change.order !== undefined) {
    const isAlong = rows.first <= change.order.last && rows.last >= change.order.first;
    return isAlong ? { ...end, row: end.row + shift } : { ...end, row: movedRow(change, end.row) ?? end.row };
  }
  const height = rows.last - rows.first;
  const [first, last] = [movedRow(change, end.row), movedRow(change, end.row + height)];
  // The rows that it reads move as one, and so do its own: each goes on reading its own row.
  if (!isSplit && first !== undefined && last !== undefined && last - first === height) {
    return { ...end, row: first + lead };
  }
  // What parts its own rows parts those that it reads alike: it goes on reading as far away as before.
  const meets = end.row <= change.at + Math.max(change.deleted, 1) && end.row + height >= change.at - 1;
  if (isSplit && meets) return { ...end, row: end.row + shift };
  return rows.first === rows.last && first === undefined ? "lost" : "stuck";
}
