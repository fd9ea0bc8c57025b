import type { XlsxCalculation } from "../engine/calculation.js";
import { quotedSheet } from "../workbook/index.js";
import { onOneLine } from "./shown-controls.js";

/** So many cells of a kind are named one by one. */
const MOST_LISTED = 40;

/** A cell and what there is to say of it. */
export interface CellLine {
  readonly sheet: string;
  readonly address: string;
  readonly says: string;
}

/** A place between digits that as many threes of digits follow as there are left. */
const BETWEEN_THREES = /\B(?=(?:\d{3})+$)/g;

/** Spells a whole number with its noun: `1 formula`, `12,000 formulas`. */
export function counted(count: number, noun: string): string {
  // Node's own spelling of numbers loads the rules of every language first, which takes longer than a small workbook.
  return `${String(count).replace(BETWEEN_THREES, ",")} ${noun}${count === 1 ? "" : "s"}`;
}

/** Prints cells under a heading, a line each; nothing where there are none. */
export function printCells(heading: string, cells: readonly CellLine[]): void {
  if (cells.length === 0) return;
  console.log(`${heading}:`);
  for (const { sheet, address, says } of cells.slice(0, MOST_LISTED)) {
    console.log(`  ${onOneLine(`${quotedSheet(sheet)}!${address}  ${says}`)}`);
  }
  if (cells.length > MOST_LISTED) console.log(`  and ${cells.length - MOST_LISTED} more; --json lists every one`);
}

/** Prints what calculating a workbook left: results that stay as they were, and errors. */
export function printCalculation({ kept, errors }: Pick<XlsxCalculation, "kept" | "errors">): void {
  const linesOf = (outdated: boolean) =>
    kept
      .filter(({ isOutdated }) => isOutdated === outdated)
      .map(({ sheet, address, reason }) => ({ sheet, address, says: reason }));
  const [stay, gone] = [linesOf(false), linesOf(true)];
  printCells(
    `Not calculated here, ${stay.length}; they keep their stored result, and nothing that they read has changed`,
    stay,
  );
  printCells(
    `Not calculated here, ${gone.length}; their old result is taken out, and a spreadsheet program calculates them when it opens the file`,
    gone,
  );
  const errorLines = errors.map(({ sheet, address, error, message }) => ({
    sheet,
    address,
    says: message === "" ? error : `${error} ${message}`,
  }));
  printCells(`Errors, ${errors.length}`, errorLines);
}
