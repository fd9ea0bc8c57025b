import type { SourceRange } from "./source.js";

/** Some cells of one sheet, asked by block. */
export interface CellSet {
  hasAnyIn(block: SourceRange): boolean;
}

/** Makes a set of cells. However many there are, asking costs about the columns in which they stand. */
export function cellSet(places: readonly { readonly row: number; readonly column: number }[]): CellSet {
  const rowsByColumn = new Map<number, number[]>();
  for (const { row, column } of places) {
    const rows = rowsByColumn.get(column);
    if (rows === undefined) rowsByColumn.set(column, [row]);
    else rows.push(row);
  }
  for (const rows of rowsByColumn.values()) rows.sort((one, other) => one - other);
  return {
    hasAnyIn({ firstRow, firstColumn, lastRow, lastColumn }) {
      for (const [column, rows] of rowsByColumn) {
        if (column < firstColumn || column > lastColumn) continue;
        const row = rows[firstAtLeast(rows, firstRow)];
        if (row !== undefined && row <= lastRow) return true;
      }
      return false;
    },
  };
}

/** Returns the place in a sorted list of the first number that is at least as large. */
export function firstAtLeast(sorted: readonly number[], wanted: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
