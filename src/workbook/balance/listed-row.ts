import { formatAddress, parseRange } from "../../xlsx/address.js";
import type { CellBlock, CellValue } from "../host.js";
import type { BalanceColumn } from "./balance-columns.js";
import type { OutletList } from "./find-outlet-lists.js";

/** One row of a list, read by what its columns hold. */
export interface ListedRow {
  /** Its number in the sheet. */
  readonly row: number;
  readonly valueAt: (column: number | undefined) => CellValue;
  readonly hasFormula: (column: number) => boolean;
  /** What a column says; "" where nothing stands, an error, or no such column. */
  readonly text: (key: BalanceColumn) => string;
  /** A number that may be missing; what is no number is an issue and null, never 0. */
  readonly number: (key: BalanceColumn) => number | null;
  /** What stands in the cells that were read and cannot be taken; each names its cell. */
  readonly issues: readonly string[];
  /** Adds what was found besides. */
  readonly find: (issue: string) => void;
}

/** Whether nothing stands there: also a result that no formula of ours has given yet, or that is still on its way. */
export const isBlank = (value: CellValue) => value === null || (typeof value === "string" && value.trim() === "");

/**
 * Makes the reader of one row of a list.
 *
 * @param block - Rows of the list as the host read them
 * @param index - The row in the block, from 0
 */
export function listedRow({ sheet, columns }: OutletList, block: CellBlock, index: number): ListedRow {
  const { firstRow = 1, firstColumn = 1 } = parseRange(block.address.range) ?? {};
  const row = firstRow + index;
  const issues: string[] = [];
  const valueAt = (column: number | undefined) =>
    column === undefined ? null : (block.values[index]?.[column - firstColumn] ?? null);
  return {
    row,
    issues,
    find: (issue) => void issues.push(issue),
    valueAt,
    hasFormula: (column) => typeof block.formulas[index]?.[column - firstColumn] === "string",
    text(key) {
      const value = valueAt(columns.get(key));
      return value === null || typeof value === "object" ? "" : String(value).trim();
    },
    number(key) {
      const column = columns.get(key);
      const value = valueAt(column);
      if (column === undefined || isBlank(value)) return null;
      if (typeof value === "number" && Number.isFinite(value)) return value;
      const shown = typeof value === "object" && value !== null ? value.error : `“${String(value)}”`;
      issues.push(
        `${sheet}!${formatAddress(row, column)} shows ${shown} where a number belongs. Mend it in the sheet.`,
      );
      return null;
    },
  };
}
