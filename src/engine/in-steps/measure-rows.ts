import type { Model } from "@odoo/o-spreadsheet";
import type { InsideCell, InsidePlace, LibraryInside } from "./library-inside.js";

/** The height of a row that nothing makes taller [px]. */
const USUAL_HEIGHT = 23;

const ROWS_A_STEP = 100;

/**
 * Measures the rows that have no height of their own, as the library does when it starts. It would measure each text, of
 * which the lines alone and their looks matter.
 */
export function* measureRows({ getters }: Model, { heights }: LibraryInside, sheetId: string): Generator<undefined> {
  /** Whether one line of cells with these looks makes a row taller: of texts, and of formulas, whose text is not known. */
  const known = { text: new Map<unknown, boolean>(), formula: new Map<unknown, boolean>() };
  const mayBeTall = (cell: InsideCell, place: InsidePlace): boolean => {
    const { style, content = "", isFormula } = cell;
    if (style?.wrapping !== undefined || style?.rotation !== undefined || content.includes("\n")) return true;
    if (!isFormula && content === "") return false;
    const ofKind = isFormula ? known.formula : known.text;
    const before = ofKind.get(style);
    if (before !== undefined) return before;
    if (getters.getMerge(place) !== undefined) return true;
    const isTall = heights.getCellHeight(place) > USUAL_HEIGHT;
    ofKind.set(style, isTall);
    return isTall;
  };
  const tallest = heights.tallestCellInRow[sheetId] ?? [];
  const rowCount = getters.getNumberRows(sheetId);
  for (let row = 0; row < rowCount; row += 1) {
    if (row % ROWS_A_STEP === ROWS_A_STEP - 1) yield;
    if (getters.getUserRowSize(sheetId, row) !== undefined) continue;
    const isTall = getters.getRowCellIds(sheetId, row).some((id) => {
      const cell = getters.getCellById(id) as unknown as InsideCell | undefined;
      return cell !== undefined && mayBeTall(cell, getters.getCellPosition(id));
    });
    if (isTall) tallest[row] = heights.getRowTallestCell(sheetId, row);
  }
  heights.tallestCellInRow[sheetId] = tallest;
}
