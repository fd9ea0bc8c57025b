import { type CellRange, columnNumber } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";

/** One end of a reference: where it points from the formula's own cell, or fixed by a dollar sign. */
interface End {
  readonly offset: number;
  readonly isFixed: boolean;
}

/** A reference in relative form, so that it serves every formula that reads the same from its own cell. */
export interface Reference {
  /** Null for the formula's own sheet. */
  readonly sheet: string | null;
  readonly isRange: boolean;
  /** Null where the reference takes every row. */
  readonly rows: readonly [End, End] | null;
  /** Null where the reference takes every column. */
  readonly columns: readonly [End, End] | null;
}

const WITH_SHEET = /^(?:'((?:[^']|'')+)'|([^!']+))!(.+)$/;
const END = /^(\$?)([A-Z]*)(\$?)(\d*)$/i;

function relative(position: number, isFixed: boolean, own: number): End {
  return { offset: isFixed ? position : position - own, isFixed };
}

function isOnSheet([, , letters = "", , digits = ""]: RegExpExecArray, hasColumns: boolean, hasRows: boolean): boolean {
  const isColumn = !hasColumns || (letters.length <= 3 && columnNumber(letters) <= WORKBOOK_LIMITS.columns);
  return isColumn && (!hasRows || (Number(digits) >= 1 && Number(digits) <= WORKBOOK_LIMITS.rows));
}

/**
 * Reads a reference such as `$B2`, `A1:C9`, `B:B`, `3:5` or `'My sheet'!A1` as seen from a cell.
 *
 * @returns undefined for what is no reference, or one to cells beyond the sheet, a deleted one included
 */
export function readReference(text: string, row: number, column: number): Reference | undefined {
  const [, quoted, plain, rest] = WITH_SHEET.exec(text) ?? [null, undefined, undefined, text];
  const ends = (rest ?? "").split(":").map((end) => END.exec(end.trim()));
  const [first, last = first] = ends;
  if (!first || !last || ends.length > 2) return undefined;
  const hasColumns = first[2] !== "" && last[2] !== "";
  const hasRows = first[4] !== "" && last[4] !== "";
  // One end alone is a cell: letters alone are a name, and digits alone a number.
  if (ends.length === 1 ? !(hasColumns && hasRows) : !(hasColumns || hasRows)) return undefined;
  if (![first, last].every((end) => isOnSheet(end, hasColumns, hasRows))) return undefined;
  const columnEnd = (end: RegExpExecArray) => relative(columnNumber(end[2] as string), end[1] === "$", column);
  const rowEnd = (end: RegExpExecArray) =>
    relative(Number(end[4]), end[3] === "$" || (!hasColumns && end[1] === "$"), row);
  return {
    sheet: quoted?.replaceAll("''", "'") ?? plain ?? null,
    isRange: ends.length === 2,
    rows: hasRows ? [rowEnd(first), rowEnd(last)] : null,
    columns: hasColumns ? [columnEnd(first), columnEnd(last)] : null,
  };
}

function placed(ends: readonly [End, End] | null, own: number, all: number): readonly [number, number] {
  if (ends === null) return [1, all];
  const [one, other] = ends.map(({ offset, isFixed }) => (isFixed ? offset : offset + own)) as [number, number];
  return one <= other ? [one, other] : [other, one];
}

/** Returns the cells that a reference means in one formula; whole columns and rows end with the used sheet. */
export function cellsMeant(
  { rows, columns }: Reference,
  row: number,
  column: number,
  used: { readonly lastRow: number; readonly lastColumn: number },
): CellRange {
  const [firstRow, lastRow] = placed(rows, row, used.lastRow);
  const [firstColumn, lastColumn] = placed(columns, column, used.lastColumn);
  return { firstRow, firstColumn, lastRow, lastColumn };
}
