import { formatAddress, formatRange } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import { findRow } from "../read/cell-table.js";
import { cellsIn, valueAt } from "../read/cells.js";
import type { CellValue, Sheet, Table } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { findTable } from "./change-rows.js";
import { restructure } from "./restructure.js";
import { bodyOf } from "./rewrite-parts.js";
import type { RowChange } from "./row-change.js";
import { type Restructured, refused } from "./structure-context.js";

/** How to sort a table. */
export interface TableOrder {
  readonly table: string;
  /** The column, by its heading. */
  readonly column: string;
  readonly direction: "ascending" | "descending";
}

/** In a spreadsheet program numbers come first, then texts, truth values and errors; empty cells last, either way. */
function kindRank(value: CellValue): number {
  if (value === null || value === "") return 4;
  if (typeof value === "number") return 0;
  if (typeof value === "string") return 1;
  return typeof value === "boolean" ? 2 : 3;
}

/** Digits within texts count as numbers: S-2 comes before S-10. */
const texts = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

function compare(one: CellValue, other: CellValue): number {
  if (typeof one === "number" && typeof other === "number") return one - other;
  if (typeof one === "string" && typeof other === "string") return texts.compare(one, other);
  return Number(one === true) - Number(other === true);
}

function compareIn(direction: TableOrder["direction"]) {
  return (one: CellValue, other: CellValue): number => {
    const [rank, otherRank] = [kindRank(one), kindRank(other)];
    const isLast = rank === 4 || otherRank === 4;
    const order = rank === otherRank ? compare(one, other) : rank - otherRank;
    return direction === "ascending" || isLast ? order : -order;
  };
}

/** Whole rows change places, so that nothing else may be in them. */
function requireRowsOfItsOwn(sheet: Sheet, table: Table): void {
  const { first, last } = bodyOf(table);
  const { firstColumn, lastColumn } = table.range;
  const refuse = (place: string, problem: string, advice: string) =>
    refused(sheet.workbook, `sheet “${sheet.name}”, ${place}`, problem, advice);
  for (let row = first; row <= last; row += 1) {
    const index = findRow(sheet.cells, row);
    if (index >= 0 && sheet.cells.rowsHidden[index] === 1) {
      throw refuse(`row ${row}`, "is hidden, and would be sorted unseen", "Show all rows, or clear the filter, first.");
    }
  }
  const beside = [
    { firstColumn: 1, lastColumn: firstColumn - 1 },
    { firstColumn: lastColumn + 1, lastColumn: WORKBOOK_LIMITS.columns },
  ];
  for (const columns of beside) {
    for (const { row, column, value, formula } of cellsIn(sheet, { firstRow: first, lastRow: last, ...columns })) {
      if (value === null && formula === undefined) continue;
      const problem = `is beside the table ${table.name}, and would be moved with its rows`;
      throw refuse(formatAddress(row, column), problem, "Move it above or below the table first.");
    }
  }
  const merged = sheet.mergedRanges.find(({ firstRow, lastRow }) => firstRow <= last && lastRow >= first);
  if (merged !== undefined) {
    throw refuse(formatRange(merged), "is merged among the rows to be sorted", "Part the merged cells first.");
  }
}

/**
 * Sorts the rows of a table by one of its columns. Rows are moved whole, headings and totals stay; notes, links and rules of
 * single rows go with them, and so do references to single rows from elsewhere. Rows that are alike keep their order.
 *
 * @param workbook - As opened; it stays as it is
 * @param order - Which table, by which column, in which direction; by results as they are stored
 * @throws {WorkbookFileError} Where rows are hidden, something is beside the table, or a formula reads some of the rows as a
 *   block, before anything is changed
 */
export function sortTable(workbook: Workbook, order: TableOrder, options?: PatchOptions): Restructured {
  const { sheet, table } = findTable(workbook, order.table);
  const index = table.columns.findIndex(({ name }) => name.toLowerCase() === order.column.toLowerCase());
  if (index < 0) {
    const names = table.columns.map(({ name }) => `“${name}”`).join(", ");
    throw refused(workbook, `table ${table.name}`, `has no column “${order.column}”`, `Its columns are ${names}.`);
  }
  requireRowsOfItsOwn(sheet, table);
  const { first, last } = bodyOf(table);
  const column = table.range.firstColumn + index;
  const sorter = compareIn(order.direction);
  const rows = Array.from({ length: last - first + 1 }, (_, offset) => first + offset).map((row) => ({
    row,
    value: valueAt(sheet, row, column),
  }));
  // Array.prototype.sort keeps what is alike in its order.
  const sorted = [...rows].sort((one, other) => sorter(one.value, other.value));
  const to = new Array<number>(rows.length);
  sorted.forEach(({ row }, place) => {
    to[row - first] = first + place;
  });
  const change: RowChange = {
    sheet: sheet.name,
    at: first,
    inserted: 0,
    deleted: 0,
    added: 0,
    model: undefined,
    list: undefined,
    order: { first, last, to },
  };
  return restructure(workbook, change, undefined, options);
}
