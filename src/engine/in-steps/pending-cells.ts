import { helpers } from "@odoo/o-spreadsheet";
import { contentsOf, type PackedCells } from "./packed-cells.js";

/** A cell that is not in a model yet: its content and the numbers of its looks. */
export interface PendingCell {
  content?: string;
  style?: number;
  format?: number;
}

/** The cells of a sheet by column and row, which count from 0. */
export type PendingCells = Record<number, Record<number, PendingCell>>;

/** What of a sheet's data says what stands in its cells. */
export interface SheetCells {
  readonly id: string;
  readonly colNumber?: number;
  readonly rowNumber?: number;
  readonly cells?: Readonly<Record<string, string | object | undefined>> | PackedCells;
  readonly styles?: Readonly<Record<string, number>>;
  readonly formats?: Readonly<Record<string, number>>;
  readonly merges?: readonly string[];
}

/** So many cells are gone through between two steps. */
const CELLS_A_STEP = 1_000;

const LETTER_A = 64;

/** The place of a cell that is written without signs: `B12`. Many are read, so no pattern is matched. */
function placeOf(address: string): { readonly col: number; readonly row: number } {
  let col = 0;
  let at = 0;
  for (; at < address.length; at += 1) {
    const letter = address.charCodeAt(at) & ~32;
    if (letter <= LETTER_A) break;
    col = col * 26 + letter - LETTER_A;
  }
  return { col: col - 1, row: Number(address.slice(at)) - 1 };
}

/** Returns a sheet's cells as they are to be placed; null where they are written in the library's own short form. */
export function* pendingCells(sheet: SheetCells): Generator<undefined, PendingCells | null> {
  const cells: PendingCells = {};
  let count = 0;
  const at = (col: number, row: number): PendingCell => {
    cells[col] ??= {};
    cells[col][row] ??= {};
    return cells[col][row];
  };
  for (const part of contentsOf(sheet.cells ?? {})) {
    for (let index = 0; index < part.length; index += 2) {
      const [address, content] = [part[index] as string, part[index + 1]];
      if (content === undefined || content === "") continue;
      if (typeof content !== "string" || address.includes(":")) return null;
      const { col, row } = placeOf(address);
      at(col, row).content = content;
      count += 1;
      if (count % CELLS_A_STEP === 0) yield;
    }
  }
  for (const look of ["style", "format"] as const) {
    const numbers = sheet[`${look}s`] ?? {};
    for (const range in numbers) {
      const { left, top, right, bottom } = helpers.toZone(range);
      for (let row = top; row <= bottom; row += 1) {
        for (let col = left; col <= right; col += 1) {
          const number = numbers[range];
          if (number !== undefined) at(col, row)[look] = number;
          count += 1;
          if (count % CELLS_A_STEP === 0) yield;
        }
      }
    }
  }
  for (const range of sheet.merges ?? []) coverMerged(cells, range);
  return cells;
}

/** Cells below a merged one hold nothing, and look like it. */
function coverMerged(cells: PendingCells, range: string): void {
  const { left, top, right, bottom } = helpers.toZone(range);
  const style = cells[left]?.[top]?.style;
  for (let col = left; col <= right; col += 1) {
    for (let row = top; row <= bottom; row += 1) {
      if (col === left && row === top) continue;
      const { format } = cells[col]?.[row] ?? {};
      const column = cells[col] ?? {};
      cells[col] = column;
      column[row] = {
        ...(style === undefined ? {} : { style }),
        ...(format === undefined ? {} : { format }),
      };
    }
  }
}

/** The size of a sheet whose data names none. */
const DEFAULT_SIZE = { colNumber: 26, rowNumber: 100 };

/** How many columns and rows a sheet needs for its cells. */
export function sizeOf(sheet: SheetCells, cells: PendingCells) {
  let colNumber = sheet.colNumber ?? DEFAULT_SIZE.colNumber;
  let rowNumber = sheet.rowNumber ?? DEFAULT_SIZE.rowNumber;
  for (const col of Object.keys(cells)) {
    colNumber = Math.max(colNumber, Number(col) + 1);
    const last = Object.keys(cells[Number(col)] ?? {}).at(-1);
    if (last !== undefined) rowNumber = Math.max(rowNumber, Number(last) + 1);
  }
  return { colNumber, rowNumber };
}
