import {
  type Drawing,
  formatRange,
  readSheetLook,
  rowStateAt,
  type Sheet,
  type SheetVisibility,
  type WorkbookLooks,
} from "../../xlsx/index.js";
import type { KeptFormula } from "../calculate-xlsx.js";
import { cellContents } from "./cell-contents.js";
import { conditionalFormats } from "./conditional-formats.js";
import { figuresOf, type HeaderSizes, reachOf } from "./figures.js";
import type { FormulaSpeller } from "./formula-speller.js";
import type { LookNumbers } from "./look-numbers.js";
import { styleZones } from "./style-zones.js";
import { type EntryWords, engineValidations, entryWords } from "./validations.js";

/** Room to go on typing below and beside what is there. */
const SPARE_ROWS = 100;
const SPARE_COLUMNS = 4;
const LEAST_COLUMNS = 26;

/** A character of a file's width, and what a cell adds, on a screen. Derived from ECMA-376-1:2016, 18.3.1.13. */
const PX_PER_CHARACTER = 7;
/** The engine keeps 4 pixels free at each side of a text, other programs 2: a word that just fits would be broken. */
const WIDER_MARGIN_PX = 4;
const PX_PER_POINT = 96 / 72;
/** Widths and heights of programs that do not store their own; from memory, unverified. */
const DEFAULT_WIDTH = 9.14;
const DEFAULT_HEIGHT_PT = 15;

/** What a sheet's data is made with. */
export interface SheetContext {
  readonly id: string;
  readonly visibility: SheetVisibility;
  readonly looks: WorkbookLooks;
  readonly numbers: LookNumbers;
  readonly speller: FormulaSpeller;
  readonly drawings: readonly Drawing[];
}

/** A sheet in the engine's own form, and what could not be calculated on it. */
export interface SheetConversion {
  readonly data: object;
  readonly kept: readonly KeptFormula[];
  readonly words: EntryWords;
  /** What lies over its cells, by the id of the figure that holds its place. */
  readonly drawings: Readonly<Record<string, Drawing>>;
}

/** Returns a worksheet of a file in the engine's own form. */
export function sheetData(
  sheet: Sheet,
  { id, visibility, looks, numbers, speller, drawings }: SheetContext,
): SheetConversion {
  const look = readSheetLook(sheet);
  const { cells, kept } = cellContents(sheet, speller);
  const lastColumn = sheet.cells.columns
    .subarray(0, sheet.cells.cellCount)
    .reduce((last, one) => Math.max(last, one), 0);
  const lastRow = sheet.cells.rowNumbers[sheet.cells.rowCount - 1] ?? 0;
  const reach = reachOf(drawings, { column: lastColumn, row: lastRow });
  const columnCount = Math.max(LEAST_COLUMNS, lastColumn + SPARE_COLUMNS, look.frozen.columns + 1, reach.column);
  const rowCount = Math.max(lastRow + SPARE_ROWS, look.frozen.rows + 1, reach.row);
  const zones = styleZones(sheet, rowCount, columnCount);
  const numbered = (numberOf: (style: number) => number | undefined) =>
    Object.fromEntries(
      zones.flatMap(({ range, style }) => {
        const number = numberOf(style);
        return number === undefined ? [] : [[range, number]];
      }),
    );
  const [cols, rows] = [columnSizes(look, columnCount), rowSizes(look)];
  const figures = figuresOf(drawings, id, { cols, rows, columnCount, rowCount });
  const data = {
    id,
    name: sheet.name,
    colNumber: columnCount,
    rowNumber: rowCount,
    cells,
    styles: numbered(numbers.style),
    formats: numbered(numbers.format),
    borders: numbered(numbers.border),
    merges: sheet.mergedRanges.map(formatRange),
    figures: figures.map(({ figure }) => figure),
    cols,
    rows,
    ...filteredRows(sheet, look),
    conditionalFormats: conditionalFormats(look.rules, sheet.name, looks.differences, speller),
    dataValidationRules: engineValidations(sheet.validations, sheet.name, speller),
    tables: sheet.tables.flatMap(tableData),
    areGridLinesVisible: look.showsGridLines,
    isVisible: visibility === "visible",
    panes: { xSplit: look.frozen.columns, ySplit: look.frozen.rows },
    ...(look.tabColor === undefined ? {} : { color: `#${look.tabColor}` }),
  };
  return {
    data,
    kept,
    words: entryWords(sheet.validations),
    drawings: Object.fromEntries(figures.map(({ figure, drawing }) => [figure.id, drawing])),
  };
}

type Look = ReturnType<typeof readSheetLook>;

function columnSizes({ columns, defaultWidth = DEFAULT_WIDTH }: Look, columnCount: number): HeaderSizes {
  const size = (width: number) => Math.round(width * PX_PER_CHARACTER) + WIDER_MARGIN_PX;
  const sizes = Array.from({ length: columnCount }, () => ({ size: size(defaultWidth), isHidden: false }));
  for (const { first, last, width = defaultWidth, isHidden } of columns) {
    for (let column = first; column <= Math.min(last, columnCount); column += 1) {
      sizes[column - 1] = { size: size(width), isHidden };
    }
  }
  return Object.fromEntries(
    sizes.map(({ size: px, isHidden }, index) => [index, { size: px, ...(isHidden ? { isHidden } : {}) }]),
  );
}

function rowSizes({ rows }: Look): HeaderSizes {
  return Object.fromEntries(
    [...rows].map(([row, { heightPt = DEFAULT_HEIGHT_PT, isHidden }]) => [
      row - 1,
      { size: Math.round(heightPt * PX_PER_POINT), ...(isHidden ? { isHidden } : {}) },
    ]),
  );
}

/** Rows that a filter hides, counted from 0; nothing where there are none. */
function filteredRows(sheet: Sheet, { rows }: Look) {
  const filtered = [...rows.keys()].filter((row) => rowStateAt(sheet, row) === "filtered");
  return filtered.length === 0 ? {} : { filteredRows: filtered.map((row) => row - 1) };
}

/**
 * A table's cells have looks of their own. Filter buttons would cover the headings of narrow columns: a table has them where
 * its filter chooses rows.
 */
function tableData({ range, headerRows, totalsRows, choices }: Sheet["tables"][number]) {
  if (headerRows === 0) return [];
  const config = {
    hasFilters: choices.size > 0,
    ...(choices.size > 0 ? { choices: Object.fromEntries(choices) } : {}),
    totalRow: totalsRows > 0,
    firstColumn: false,
    lastColumn: false,
    numberOfHeaders: headerRows,
    bandedRows: false,
    bandedColumns: false,
    automaticAutofill: false,
    styleId: "None",
  };
  return [{ range: formatRange(range), type: "static", config }];
}
