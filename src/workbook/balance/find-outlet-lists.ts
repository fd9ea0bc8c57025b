import { formatRange, parseRange } from "../../xlsx/address.js";
import type { BlockAddress, SheetInfo, WorkbookHost } from "../host.js";
import { type ListedColumns, listedColumns } from "./balance-columns.js";

/** A list of outlets on a sheet. */
export interface OutletList extends ListedColumns {
  readonly sheet: string;
  /** The rows below the header, all columns; null where the header is the last row in use. */
  readonly rows: BlockAddress | null;
}

/** Nobody puts a header lower or further right. */
const HEADER_ROWS = 40;
const HEADER_COLUMNS = 80;

/** More rows than any job has outlets: what lies below is no list. */
const MOST_ROWS = 3000;

/** Finds the lists of outlets on sheets by their headers, one on each at most; reads one batch. */
export async function findOutletLists(
  host: WorkbookHost,
  sheets: readonly SheetInfo[],
): Promise<readonly OutletList[]> {
  const used = sheets.flatMap(({ name, usedRange }) => {
    const range = usedRange === null ? undefined : parseRange(usedRange);
    return range === undefined ? [] : [{ sheet: name, range }];
  });
  const heads = await host.read(
    used.map(({ sheet, range }) => {
      const lastRow = Math.min(range.lastRow, range.firstRow + HEADER_ROWS - 1);
      const lastColumn = Math.min(range.lastColumn, range.firstColumn + HEADER_COLUMNS - 1);
      return { sheet, range: formatRange({ ...range, lastRow, lastColumn }) };
    }),
  );
  return used.flatMap(({ sheet, range }, index): readonly OutletList[] => {
    const cells = heads[index]?.values ?? [];
    for (const [offset, row] of cells.entries()) {
      const found = listedColumns(row, range.firstColumn);
      if (found === null) continue;
      const firstRow = range.firstRow + offset + 1;
      if (firstRow > range.lastRow) return [{ sheet, rows: null, ...found }];
      const lastRow = Math.min(range.lastRow, firstRow + MOST_ROWS - 1);
      const rows = { sheet, range: formatRange({ ...range, firstRow, lastRow }) };
      return [{ sheet, rows, ...found }];
    }
    return [];
  });
}
