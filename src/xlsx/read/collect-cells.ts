import { formatAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { decodeXstring } from "../xml/text.js";
import {
  addCell,
  addFormula,
  addRow,
  addText,
  CELL_KIND,
  type CellRecord,
  type CellTableBuilder,
  endRow,
  makeCellTableBuilder,
  type StoredFormula,
} from "./cell-table.js";
import { dateSerial } from "./date-serial.js";

const NUMBER = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;
const ERROR = /^#[A-Z0-9/_]+[!?]?$/;

/** What reading the cells of a sheet needs to know of its workbook. */
export interface CellContext {
  readonly place: string;
  readonly strings: readonly string[];
  readonly usesDate1904: boolean;
}

/** A formula as its element spells it. */
export interface FormulaRecord {
  readonly kind: StoredFormula["kind"];
  readonly text: string;
  readonly range: string | undefined;
  readonly isDynamic: boolean;
  /** The number by which formulas share their text. */
  readonly share: number;
  readonly start: number;
  readonly end: number;
}

/** Where in the part a text stands, and its number in the table's own texts. */
interface PlacedText {
  readonly start: number;
  readonly end: number;
  readonly index: number;
}

/** Takes rows and cells in the order of the file, checks them, and makes the table of cells. */
export interface CellCollector {
  readonly context: CellContext;
  readonly builder: CellTableBuilder;
  /** The cell that is open. */
  readonly cell: CellRecord;
  /** What formulas showed last, by column: in a list most rows repeat it. */
  readonly lastTexts: (PlacedText | undefined)[];
  row: number;
  column: number;
  type: string;
}

/** Makes a collector for one sheet. */
export function makeCellCollector(context: CellContext): CellCollector {
  const cell = { column: 0, kind: 0, number: 0, style: 0, start: 0, end: 0, formulaIndex: -1 };
  return { context, builder: makeCellTableBuilder(), cell, lastTexts: [], row: 0, column: 0, type: "n" };
}

/** The error of a sheet that is damaged at the open cell. */
export function damagedCell({ context, row, column }: CellCollector, problem: string): WorkbookFileError {
  return new WorkbookFileError(
    "damaged-workbook",
    context.place,
    `${formatAddress(Math.max(row, 1), Math.max(column, 1))} ${problem}`,
    "Open it in your spreadsheet program, let it repair the file, and save it again.",
  );
}

/** `row` is 0 where the file does not say; `style` is -1 where the row has none; `hidden` is 1 for a hidden row, else 0. */
export function openRow(
  cells: CellCollector,
  row: number,
  style: number,
  hidden: number,
  start: number,
  openEnd: number,
): void {
  const previous = cells.row;
  cells.column = 0;
  const next = row === 0 ? previous + 1 : row;
  if (!(Number.isInteger(next) && next >= 1 && next <= WORKBOOK_LIMITS.rows))
    throw damagedCell(cells, "is followed by a row outside the sheet");
  cells.row = next;
  if (next <= previous) throw damagedCell(cells, "is in a row that comes twice or too late");
  addRow(cells.builder, next, style, hidden, start, openEnd);
}

export function closeRow(cells: CellCollector, end: number): void {
  endRow(cells.builder, end);
}

/** `row` and `column` are 0 where the file does not say. */
export function openCell(
  cells: CellCollector,
  row: number,
  column: number,
  style: number,
  type: string,
  start: number,
): void {
  const { cell, builder } = cells;
  const previous = cells.column;
  cells.column = column === 0 ? previous + 1 : column;
  if (cells.column > WORKBOOK_LIMITS.columns) throw damagedCell(cells, "lies outside the sheet");
  if (row !== 0 && row !== cells.row) throw damagedCell(cells, "is called by an address of another row");
  if (cells.column <= previous) throw damagedCell(cells, "comes twice or too late in its row");
  if (builder.cellCount >= WORKBOOK_LIMITS.cells) {
    const problem = `holds more than ${WORKBOOK_LIMITS.cells} cells`;
    throw new WorkbookFileError("too-large", cells.context.place, problem, "Remove rows that this job does not need.");
  }
  cell.column = cells.column;
  cell.start = start;
  cell.style = style;
  cell.formulaIndex = -1;
  cell.kind = CELL_KIND.blank;
  cell.number = 0;
  cells.type = type;
}

export function closeCell({ cell, builder }: CellCollector, end: number): void {
  cell.end = end;
  addCell(builder, cell);
}

export function takeFormula(
  cells: CellCollector,
  { kind, text, range, isDynamic, share, start, end }: FormulaRecord,
): void {
  if (!isFormula(cells, kind, share, text.length)) return;
  const { row, column } = cells;
  const stored = { kind, text: decodeXstring(text), range, isDynamic, row, column, masterIndex: -1, start, end };
  cells.cell.formulaIndex = addFormula(cells.builder, stored, kind === "shared" ? share : -1);
}

/** Takes it that a formula is there, which is to be read when somebody asks for it. */
export function noteFormula(cells: CellCollector, kind: StoredFormula["kind"], share: number, length: number): void {
  if (!isFormula(cells, kind, share, length)) return;
  cells.cell.formulaIndex = cells.builder.formulaCount;
  cells.builder.formulaCount += 1;
}

/** Empty text without a kind is no formula at all. */
function isFormula(cells: CellCollector, kind: StoredFormula["kind"], share: number, length: number): boolean {
  if (kind === "shared" && !(Number.isInteger(share) && share >= 0)) {
    throw damagedCell(cells, "shares a formula without a number");
  }
  if (length > WORKBOOK_LIMITS.formulaLength * 2) throw damagedCell(cells, "has a formula that is too long");
  return kind !== "plain" || length > 0;
}

/** Content after the value starts here. */
export function takeTail({ builder }: CellCollector, start: number): void {
  builder.tails.set(builder.cellCount, start);
}

/** The value of a cell that is a number, already read. */
export function takeNumber({ cell }: CellCollector, value: number): void {
  cell.kind = CELL_KIND.number;
  cell.number = value;
}

/** The number of the value in the table of texts, already read. */
export function takeSharedText(cells: CellCollector, index: number): void {
  cells.cell.kind = CELL_KIND.sharedText;
  cells.cell.number = index;
  if (cells.context.strings[index] === undefined) throw damagedCell(cells, "refers to a text that the file lacks");
}

export function takeInlineText({ cell, builder }: CellCollector, text: string): void {
  cell.kind = CELL_KIND.ownText;
  cell.number = addText(builder, decodeXstring(text));
}

/** A text that stands in the part from one place to another; true where it is the one that the column showed last. */
export function takeRepeatedText(
  { cell, column, lastTexts }: CellCollector,
  bytes: Uint8Array,
  start: number,
  end: number,
): boolean {
  const last = lastTexts[column];
  if (last === undefined || last.end - last.start !== end - start) return false;
  for (let offset = end - start - 1; offset >= 0; offset -= 1) {
    if (bytes[start + offset] !== bytes[last.start + offset]) return false;
  }
  cell.kind = CELL_KIND.ownText;
  cell.number = last.index;
  return true;
}

/** The text that a formula shows, from one place of the part to another. */
export function takePlacedText(cells: CellCollector, text: string, start: number, end: number): void {
  takeInlineText(cells, text);
  cells.lastTexts[cells.column] = { start, end, index: cells.cell.number };
}

/** The value element's text. */
export function takeValue(cells: CellCollector, text: string): void {
  const { cell, builder, context } = cells;
  switch (cells.type) {
    case "str":
    case "inlineStr":
      takeInlineText(cells, text);
      return;
    case "s":
      takeSharedText(cells, text.trim() === "" ? -1 : Number(text));
      return;
    case "b":
      cell.kind = CELL_KIND.boolean;
      cell.number = /^\s*(1|true)\s*$/.test(text) ? 1 : 0;
      return;
    case "e":
      if (!ERROR.test(text.trim())) throw damagedCell(cells, "holds an error without a proper name");
      cell.kind = CELL_KIND.error;
      cell.number = addText(builder, text.trim());
      return;
    case "n":
    case "d":
      if (text === "") return;
      cell.kind = CELL_KIND.number;
      if (cells.type === "d") cell.number = dateSerial(text, context.usesDate1904);
      else cell.number = NUMBER.test(text) ? Number(text) : Number.NaN;
      if (!Number.isFinite(cell.number))
        throw damagedCell(cells, `holds “${text.slice(0, 40)}” where a number belongs`);
      return;
    default:
      throw damagedCell(cells, `has the unknown type ${cells.type.slice(0, 20)}`);
  }
}
