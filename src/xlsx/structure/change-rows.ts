import { formatRange } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import { findSheetEntry, readSheet } from "../read/read-sheet.js";
import type { Sheet, Table } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { misfitsOf } from "./align-series.js";
import { restructure } from "./restructure.js";
import { bodyOf } from "./rewrite-parts.js";
import { movedRow, type RowChange, type RowList } from "./row-change.js";
import { type Restructured, refused } from "./structure-context.js";

/** Some rows of a sheet. */
export interface SheetRows {
  readonly sheet: string;
  /** The first of them, counted from 1. */
  readonly row: number;
  readonly count: number;
}

/** A table by its name, in any case, or by a row of its list; and how many rows it is to get. */
export type TableRows = { readonly count: number } & (
  | { readonly table: string }
  | { readonly sheet: string; readonly row: number }
);

/** A table by its name and how many rows join it, or the last of the rows below a table that are to join it. */
export type JoiningRows =
  | { readonly table: string; readonly count: number }
  | { readonly sheet: string; readonly row: number };

function requireRows(workbook: Workbook, { sheet, row, count }: SheetRows): Sheet {
  const read = readSheet(workbook, findSheetEntry(workbook, sheet)?.name ?? sheet);
  const isWhole = [row, count].every((number) => Number.isInteger(number) && number >= 1);
  if (!isWhole || row + count - 1 > WORKBOOK_LIMITS.rows) {
    const problem = `has no ${count} rows from row ${row} on`;
    const advice = `Rows are counted from 1 to ${WORKBOOK_LIMITS.rows}.`;
    throw refused(workbook, `sheet “${read.name}”`, problem, advice);
  }
  return read;
}

function listOf(table: Table): RowList {
  const { firstColumn, lastColumn } = table.range;
  return { ...bodyOf(table), firstColumn, lastColumn };
}

/** The table in whose rows new ones come: among its rows, before its first, or before its totals. */
function tableWith(sheet: Sheet, row: number): Table | undefined {
  return sheet.tables.find((table) => {
    const { first, last } = bodyOf(table);
    return row >= first && row <= last + (table.totalsRows > 0 ? 1 : 0) && (table.headerRows > 0 || row > first);
  });
}

/** Finds a table of a workbook and its sheet, whatever the case of its name. */
export function findTable(workbook: Workbook, name: string): { readonly sheet: Sheet; readonly table: Table } {
  for (const entry of workbook.sheets) {
    if (entry.kind !== "worksheet") continue;
    const sheet = readSheet(workbook, entry.name);
    const table = sheet.tables.find((one) => one.name.toLowerCase() === name.toLowerCase());
    if (table !== undefined) return { sheet, table };
  }
  throw refused(workbook, `table “${name}”`, "is not in the workbook", "Check the name of the table.");
}

function tableOfRow(
  workbook: Workbook,
  sheetName: string,
  row: number,
): { readonly sheet: Sheet; readonly table: Table } {
  const sheet = readSheet(workbook, sheetName);
  const table = sheet.tables.find((one) => row >= one.range.firstRow && row <= one.range.lastRow);
  if (table !== undefined) return { sheet, table };
  throw refused(workbook, `sheet “${sheet.name}”, row ${row}`, "is in no table", "Choose a row of the list.");
}

/** The nearest table above a row, and how many rows lie from its end to that row. */
function tableAbove(workbook: Workbook, sheetName: string, row: number) {
  const sheet = readSheet(workbook, sheetName);
  const above = sheet.tables.filter(({ range }) => range.lastRow < row);
  const [table] = above.sort((one, other) => other.range.lastRow - one.range.lastRow);
  if (table !== undefined) return { sheet, table, count: row - table.range.lastRow };
  throw refused(workbook, `sheet “${sheet.name}”, row ${row}`, "has no table above it", "Choose rows below a table.");
}

/**
 * Carries a change of rows out, and keeps the charts of the list whole: lines for limits, whose figures stand on another
 * sheet in as many rows as the list has, grow and shrink with it.
 */
function withCharts(
  workbook: Workbook,
  change: RowChange,
  table: Table | undefined,
  options: PatchOptions = {},
): Restructured {
  let done = restructure(workbook, change, table, options);
  for (const { sheet, lastRow, rows, isAlone } of misfitsOf(workbook, done.workbook, change.sheet)) {
    if (!isAlone) {
      const notice = `A chart of “${change.sheet}” shows figures of “${sheet}” up to row ${lastRow} beside it, which did not follow.`;
      done = { ...done, notices: [...done.notices, notice] };
      continue;
    }
    // Before its last row, so that whatever reads the block takes the new rows in; what goes, goes from its end.
    const at = rows > 0 ? lastRow : lastRow + rows;
    const model = rows > 0 ? lastRow - 1 : undefined;
    const aligned: RowChange = {
      sheet,
      at,
      inserted: Math.max(rows, 0),
      deleted: Math.max(-rows, 0),
      added: Math.max(rows, 0),
      model,
      list: undefined,
    };
    const next = restructure(done.workbook, aligned, undefined, options);
    const moved = done.outdated.map((cell) =>
      cell.sheet === sheet ? { ...cell, row: movedRow(aligned, cell.row) } : cell,
    );
    const kept = moved.flatMap((cell) => (cell.row === undefined ? [] : [{ ...cell, row: cell.row }]));
    done = { ...next, outdated: [...kept, ...next.outdated], notices: done.notices };
  }
  return done;
}

/**
 * Inserts rows and pushes down what stands there. References in formulas, names, rules, charts and all else that the file
 * says of cells follow. The new rows get the looks, rules and formulas of the row above, in a table those of its columns;
 * never what was typed.
 *
 * @param workbook - As opened; it stays as it is
 * @param rows - Where the new rows are to be, and how many
 * @returns The workbook with them; every part not concerned keeps its bytes
 * @throws {WorkbookFileError} Where something cannot follow, before anything is changed
 * @example
 * insertRows(workbook, { sheet: "Outlets", row: 12, count: 1 }).workbook
 */
export function insertRows(workbook: Workbook, rows: SheetRows, options?: PatchOptions): Restructured {
  const sheet = requireRows(workbook, rows);
  const { row, count } = rows;
  const table = tableWith(sheet, row);
  const list = table && listOf(table);
  const above = row > 1 ? row - 1 : undefined;
  // Above the first row of a table stand its headings.
  const model = list !== undefined && row === list.first ? row : above;
  const change: RowChange = { sheet: sheet.name, at: row, inserted: count, deleted: 0, added: count, model, list };
  return withCharts(workbook, change, table, options);
}

/**
 * Deletes rows with all that is in them. What refers to them alone becomes #REF!, as in a spreadsheet program.
 *
 * @param workbook - As opened; it stays as it is
 * @param rows - Which
 * @throws {WorkbookFileError} Where they hold the headings, the totals or the last row of a table, or part of what cannot be
 *   parted
 */
export function deleteRows(workbook: Workbook, rows: SheetRows, options?: PatchOptions): Restructured {
  const sheet = requireRows(workbook, rows);
  const { row, count } = rows;
  const last = row + count - 1;
  for (const table of sheet.tables) {
    const { range, headerRows, totalsRows } = table;
    const body = bodyOf(table);
    const hits = (from: number, to: number) => from <= to && row <= to && last >= from;
    const place = `sheet “${sheet.name}”, ${formatRange(range)}`;
    const advice = "Delete rows of its list only, and leave at least one.";
    if (hits(range.firstRow, range.firstRow + headerRows - 1)) {
      throw refused(workbook, place, `is the table ${table.name}, whose headings would go`, advice);
    }
    if (hits(range.lastRow - totalsRows + 1, range.lastRow)) {
      throw refused(workbook, place, `is the table ${table.name}, whose row of totals would go`, advice);
    }
    if (row <= body.first && last >= body.last) {
      throw refused(workbook, place, `is the table ${table.name}, which would have no row left`, advice);
    }
  }
  const change: RowChange = {
    sheet: sheet.name,
    at: row,
    inserted: 0,
    deleted: count,
    added: 0,
    model: undefined,
    list: undefined,
  };
  return withCharts(workbook, change, undefined, options);
}

/**
 * Adds rows at the end of a table, before its totals, and pushes down what stands below. Blocks that end with the table's
 * last row, such as sums, rules, print areas and charts, take the new rows in.
 *
 * @param workbook - As opened; it stays as it is
 * @param rows - Which table, and how many rows
 * @throws {WorkbookFileError} Where something cannot follow, before anything is changed
 */
export function growTable(workbook: Workbook, rows: TableRows, options?: PatchOptions): Restructured {
  const { count } = rows;
  const { sheet, table } =
    "table" in rows ? findTable(workbook, rows.table) : tableOfRow(workbook, rows.sheet, rows.row);
  const list = listOf(table);
  const at = list.last + 1;
  requireRows(workbook, { sheet: sheet.name, row: at, count });
  const change = { sheet: sheet.name, at, inserted: count, deleted: 0, added: count, model: list.last, list };
  return withCharts(workbook, change, table, options);
}

/**
 * Takes rows that stand right below a table into it, as typed: what is in them stays, and empty cells get the formulas, looks
 * and rules of the table.
 *
 * @param workbook - As opened; it stays as it is
 * @param rows - Which table, and how many rows below it join
 * @throws {WorkbookFileError} Where the table has a row of totals, or another table or a merged block stands there
 */
export function extendTable(workbook: Workbook, rows: JoiningRows, options?: PatchOptions): Restructured {
  const { sheet, table, count } =
    "table" in rows
      ? { ...findTable(workbook, rows.table), count: rows.count }
      : tableAbove(workbook, rows.sheet, rows.row);
  const list = listOf(table);
  const at = list.last + 1;
  requireRows(workbook, { sheet: sheet.name, row: at, count });
  const place = `sheet “${sheet.name}”, rows ${at} to ${at + count - 1}`;
  if (table.totalsRows > 0) {
    throw refused(
      workbook,
      place,
      `are below the totals of the table ${table.name}`,
      "Add rows before the totals instead.",
    );
  }
  const block = { firstRow: at, lastRow: at + count - 1, firstColumn: list.firstColumn, lastColumn: list.lastColumn };
  const meets = (range: typeof block) =>
    range.firstRow <= block.lastRow &&
    range.lastRow >= block.firstRow &&
    range.firstColumn <= block.lastColumn &&
    range.lastColumn >= block.firstColumn;
  const other = sheet.tables.find((one) => one !== table && meets(one.range));
  if (other !== undefined) {
    throw refused(workbook, place, `belong to the table ${other.name}`, "Choose fewer rows.");
  }
  const merged = sheet.mergedRanges.find(meets);
  if (merged !== undefined) {
    throw refused(
      workbook,
      place,
      `hold the merged cells ${formatRange(merged)}`,
      "Part them first: a table holds none.",
    );
  }
  const change = { sheet: sheet.name, at, inserted: 0, deleted: 0, added: count, model: list.last, list };
  return withCharts(workbook, change, table, options);
}
