import { cellCount } from "../../xlsx/index.js";
import type { Corners } from "../formula/values.js";
import type { Prepared } from "./prepare.js";

/** One formula cell while the workbook is calculated. */
export interface FormulaNode {
  /** Its place in the list of sheets. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly prepared: Prepared;
  readonly fills: Corners | undefined;
  readonly isDynamic: boolean;
}

/** A block on one of the sheets. */
export interface PlacedBlock {
  readonly sheet: number;
  readonly block: Corners;
}

/** A block of more cells than this is looked through once and remembered. */
const LARGE_BLOCK = 64;

export function isLargeBlock(block: Corners): boolean {
  return cellCount(block) > LARGE_BLOCK;
}

/** Names a block, so that what is known of it is found again. */
export function blockKey(sheet: number, { firstRow, firstColumn, lastRow, lastColumn }: Corners): string {
  return `${sheet}:${firstRow}:${firstColumn}:${lastRow}:${lastColumn}`;
}
