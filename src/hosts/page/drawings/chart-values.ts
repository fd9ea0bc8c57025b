import type { Model } from "@odoo/o-spreadsheet";
import { type CellRange, type ChartData, cellsMeant, readReference } from "../../../xlsx/index.js";

/** A value of a chart as its cell shows it; a cell without a number is none. */
export interface ChartValue {
  readonly number: number | null;
  readonly text: string;
  readonly isEmpty: boolean;
  /** How the cell shows numbers. */
  readonly format: string | undefined;
}

interface Block {
  readonly sheetId: string;
  readonly range: CellRange;
}

/** More points than any axis has room for. */
const MOST_POINTS = 100_000;

/** The blocks of a formula, `Outlets!$A$9:$A$38` or several in brackets; undefined where it is anything else. */
function blocksOf({ getters }: Model, formula: string): readonly Block[] | undefined {
  const blocks: Block[] = [];
  for (const text of formula.replace(/^\((.*)\)$/, "$1").split(/,(?=(?:[^']*'[^']*')*[^']*$)/)) {
    const reference = readReference(text.trim(), 1, 1);
    const sheetId = reference?.sheet == null ? undefined : getters.getSheetIdByName(reference.sheet);
    if (reference === undefined || sheetId === undefined) return undefined;
    const used = { lastRow: getters.getNumberRows(sheetId), lastColumn: getters.getNumberCols(sheetId) };
    blocks.push({ sheetId, range: cellsMeant(reference, 1, 1, used) });
  }
  return blocks;
}

function storedValue(value: string | number | null): ChartValue {
  const number = typeof value === "number" ? value : null;
  return { number, text: value === null ? "" : String(value), isEmpty: value === null, format: undefined };
}

/**
 * Returns the values that a chart shows, as its cells hold them; those of the file where the cells are in another workbook.
 *
 * @param skipsHidden - Whether cells of hidden rows and columns are left out
 */
export function chartValues(model: Model, { formula, stored }: ChartData, skipsHidden: boolean): readonly ChartValue[] {
  const { getters } = model;
  const blocks = formula === undefined ? undefined : blocksOf(model, formula);
  if (blocks === undefined) return stored.map(storedValue);
  const values: ChartValue[] = [];
  for (const { sheetId, range } of blocks) {
    for (let row = range.firstRow - 1; row < range.lastRow; row += 1) {
      if (skipsHidden && getters.isRowHidden(sheetId, row)) continue;
      for (let col = range.firstColumn - 1; col < range.lastColumn; col += 1) {
        if (values.length === MOST_POINTS) return values;
        if (skipsHidden && getters.isColHidden(sheetId, col)) continue;
        const cell = getters.getEvaluatedCell({ sheetId, col, row });
        values.push({
          number: cell.type === "number" ? cell.value : null,
          text: cell.formattedValue,
          isEmpty: cell.type === "empty",
          format: cell.format,
        });
      }
    }
  }
  return values;
}
