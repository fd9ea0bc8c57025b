import { helpers, type Model } from "@odoo/o-spreadsheet";
import { type InsideCell, type InsidePlace, insideOf, type LibraryInside } from "./library-inside.js";
import { type LookZones, lookZones } from "./look-zones.js";
import type { SpelledFormulas } from "./place-cells.js";

const CELLS_A_STEP = 200;

/** A sheet as the library exports it. */
interface SheetData {
  readonly id: string;
  cells: Record<string, string>;
  styles: Record<string, number>;
  formats: Record<string, number>;
}

interface WorkbookData {
  readonly sheets: readonly SheetData[];
  styles: object;
  formats: object;
}

/** All but the cells, of which there are few. */
function withoutCells(model: Model, { cells }: LibraryInside): WorkbookData {
  cells.export = () => undefined;
  try {
    return model._exportData(false) as unknown as WorkbookData;
  } finally {
    Reflect.deleteProperty(cells, "export");
  }
}

function addressing(): (col: number, row: number) => string {
  const letters: string[] = [];
  return (col, row) => {
    letters[col] ??= helpers.numberToLetters(col);
    return `${letters[col]}${row + 1}`;
  };
}

interface PlacedCell {
  readonly cell: InsideCell;
  readonly place: InsidePlace;
}

/** The cells of a sheet column by column. */
function* placedCells({ getters }: Model, sheetId: string): Generator<undefined, readonly PlacedCell[]> {
  const placed: PlacedCell[] = [];
  let isInOrder = true;
  for (const cell of getters.getCells(sheetId) as unknown as readonly InsideCell[]) {
    const place = getters.getCellPosition(cell.id);
    const last = placed.at(-1)?.place;
    isInOrder &&= last === undefined || last.col < place.col || (last.col === place.col && last.row < place.row);
    placed.push({ cell, place });
    if (placed.length % CELLS_A_STEP === 0) yield;
  }
  return isInOrder ? placed : placed.sort((a, b) => a.place.col - b.place.col || a.place.row - b.place.row);
}

/** The styles that differ from the usual ones, each taken out once for cells that share it. */
function stylesOf({ getters }: Model, { cells }: LibraryInside): (cell: InsideCell) => object | undefined {
  const locale = getters.getLocale();
  const known = {
    formula: new Map<object, object>(),
    number: new Map<object, object>(),
    text: new Map<object, object>(),
  };
  return (cell) => {
    const { style, isFormula, content = "" } = cell;
    if (style === undefined) return undefined;
    const ofKind = isFormula ? known.formula : helpers.isNumber(content, locale) ? known.number : known.text;
    const custom = ofKind.get(style) ?? cells.extractCustomStyle(cell);
    ofKind.set(style, custom);
    return Object.keys(custom).length === 0 ? undefined : custom;
  };
}

/**
 * Takes a workbook out of the library in steps, contents spelled out. Nothing may be changed before the last one; the
 * library does it in one go.
 *
 * @param spelled - Formulas whose spelling is known, where nothing was changed since
 */
export function* exportInSteps(model: Model, spelled: SpelledFormulas = new Map()): Generator<undefined, object> {
  const inside = insideOf(model);
  const data = withoutCells(model, inside);
  const addressOf = addressing();
  const looks = { styles: lookZones(addressOf), formats: lookZones(addressOf) } satisfies Record<string, LookZones>;
  const styleOf = stylesOf(model, inside);
  yield;
  for (const sheet of data.sheets) {
    const cells: Record<string, string> = {};
    let count = 0;
    for (const { cell, place } of yield* placedCells(model, sheet.id)) {
      const { col, row } = place;
      const style = styleOf(cell);
      if (style !== undefined) looks.styles.add(style, col, row);
      if (cell.format !== undefined && cell.format !== "") looks.formats.add(cell.format, col, row);
      const content =
        spelled.get(cell.id) ?? cell.compiledFormula?.toFormulaString(model.getters) ?? cell.content ?? "";
      if (cell.isFormula || content !== "") cells[addressOf(col, row)] = content;
      count += 1;
      if (count % CELLS_A_STEP === 0) yield;
    }
    sheet.cells = cells;
    sheet.styles = looks.styles.zones();
    sheet.formats = looks.formats.zones();
  }
  data.styles = looks.styles.list;
  data.formats = looks.formats.list;
  return data;
}
