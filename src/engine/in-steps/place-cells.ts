import type { Model } from "@odoo/o-spreadsheet";
import { formulaReader } from "./alike-formulas.js";
import type { LibraryInside } from "./library-inside.js";
import type { PendingCells } from "./pending-cells.js";

/** What the numbers of looks stand for. */
export interface LookLists {
  readonly styles?: Readonly<Record<string, unknown>>;
  readonly formats?: Readonly<Record<string, unknown>>;
}

/** Formulas that the library spells just as they were given, by the number of their cells. */
export type SpelledFormulas = Map<number, string>;

/** So many cells, of which each may be a formula to be read, are placed between two steps. */
const CELLS_A_STEP = 200;

/**
 * Puts cells into a sheet that has none, as the library does when it reads a workbook, column by column.
 *
 * @param spelled - Learns the formulas whose spelling is known by that
 */
export function* placeCells(
  model: Model,
  { cells, sheets, tracked }: LibraryInside,
  sheetId: string,
  pending: PendingCells,
  { styles = {}, formats = {} }: LookLists,
  spelled: SpelledFormulas,
): Generator<undefined, void> {
  const read = formulaReader(model, sheetId);
  cells.cells[sheetId] ??= {};
  const ofSheet = cells.cells[sheetId];
  const rows = sheets.sheets[sheetId]?.rows ?? [];
  const lists = Object.entries(tracked.trackedCells);
  let count = 0;
  for (const col of Object.keys(pending).map(Number)) {
    const column = pending[col] ?? {};
    for (const name in column) {
      const row = Number(name);
      const { content, style, format } = column[row] ?? {};
      if (content === undefined && style === undefined && format === undefined) continue;
      const formula = content?.startsWith("=") === true ? read(content, col, row) : undefined;
      const cell = cells.importCell(
        sheetId,
        content,
        style === undefined ? undefined : styles[style],
        format === undefined ? undefined : formats[format],
        formula?.compiled,
      );
      if (content !== undefined && formula?.isSpelledAlike === true) spelled.set(cell.id, content);
      ofSheet[cell.id] = cell;
      sheets.cellPosition[cell.id] = { sheetId, col, row };
      const ofRow = rows[row]?.cells;
      if (ofRow !== undefined) ofRow[col] = cell.id;
      for (const [name, list] of lists) if (cell.compiledFormula?.usesSymbol(name) === true) list[cell.id] = cell.id;
      count += 1;
      if (count % CELLS_A_STEP === 0) yield;
    }
  }
}
