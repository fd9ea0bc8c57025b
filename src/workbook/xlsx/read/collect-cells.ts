import { formatAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { decodeXstring } from "../xml/text.js";
import { CELL_KIND, type CellRecord, type CellTable, makeCellTableBuilder, type StoredFormula } from "./cell-table.js";
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

/** Takes rows and cells in the order of the file, checks them, and makes the table of cells. */
export interface CellCollector {
  /** `row` is 0 where the file does not say; `style` is -1 where the row has none. */
  openRow(row: number, style: number, start: number, openEnd: number): void;
  closeRow(end: number): void;
  /** `row` and `column` are 0 where the file does not say. */
  openCell(row: number, column: number, style: number, type: string, start: number): void;
  formula(formula: FormulaRecord): void;
  /** Content after the value starts here. */
  tail(start: number): void;
  /** The value element's text. */
  value(text: string): void;
  /** The value of a cell that is a number, already read. */
  number(value: number): void;
  /** The number of the value in the table of texts, already read. */
  sharedText(index: number): void;
  inlineText(text: string): void;
  closeCell(end: number): void;
  damaged(problem: string): WorkbookFileError;
  build(): CellTable;
}

/** Makes a collector for one sheet. */
export function makeCellCollector(context: CellContext): CellCollector {
  const { place, strings, usesDate1904 } = context;
  const builder = makeCellTableBuilder();
  const cell: CellRecord = { column: 0, kind: 0, number: 0, style: 0, start: 0, end: 0, formulaIndex: -1 };
  let row = 0;
  let column = 0;
  let type = "n";

  const damaged = (problem: string): WorkbookFileError =>
    new WorkbookFileError(
      "damaged-workbook",
      place,
      `${formatAddress(Math.max(row, 1), Math.max(column, 1))} ${problem}`,
      "Open it in your spreadsheet program, let it repair the file, and save it again.",
    );

  function setOwnText(text: string): void {
    cell.kind = CELL_KIND.ownText;
    cell.number = builder.addText(decodeXstring(text));
  }

  function setSharedText(index: number): void {
    cell.kind = CELL_KIND.sharedText;
    cell.number = index;
    if (strings[index] === undefined) throw damaged("refers to a text that the file lacks");
  }

  return {
    damaged,
    sharedText: setSharedText,
    openRow(given, style, start, openEnd) {
      const previous = row;
      column = 0;
      const next = given === 0 ? previous + 1 : given;
      if (!(Number.isInteger(next) && next >= 1 && next <= WORKBOOK_LIMITS.rows))
        throw damaged("is followed by a row outside the sheet");
      row = next;
      if (row <= previous) throw damaged("stands in a row that comes twice or too late");
      builder.openRow(row, style, start, openEnd);
    },
    closeRow(end) {
      builder.closeRow(end);
    },
    openCell(givenRow, givenColumn, style, givenType, start) {
      const previous = column;
      column = givenColumn === 0 ? previous + 1 : givenColumn;
      if (column > WORKBOOK_LIMITS.columns) throw damaged("lies outside the sheet");
      if (givenRow !== 0 && givenRow !== row) throw damaged("is called by an address of another row");
      if (column <= previous) throw damaged("comes twice or too late in its row");
      if (builder.cellCount() >= WORKBOOK_LIMITS.cells) {
        const problem = `holds more than ${WORKBOOK_LIMITS.cells} cells`;
        throw new WorkbookFileError("too-large", place, problem, "Remove rows that this job does not need.");
      }
      cell.column = column;
      cell.start = start;
      cell.style = style;
      cell.formulaIndex = -1;
      cell.kind = CELL_KIND.blank;
      cell.number = 0;
      type = givenType;
    },
    formula({ kind, text, range, isDynamic, share, start, end }) {
      if (kind === "shared" && !(Number.isInteger(share) && share >= 0)) {
        throw damaged("shares a formula without a number");
      }
      if (text.length > WORKBOOK_LIMITS.formulaLength * 2) throw damaged("has a formula that is too long");
      // Empty text without a kind is no formula at all.
      if (kind === "plain" && text === "") return;
      const stored = { kind, text: decodeXstring(text), range, isDynamic, row, column, masterIndex: -1, start, end };
      cell.formulaIndex = builder.addFormula(stored, kind === "shared" ? share : -1);
    },
    tail(start) {
      builder.addTail(start);
    },
    number(value) {
      cell.kind = CELL_KIND.number;
      cell.number = value;
    },
    inlineText(text) {
      setOwnText(text);
    },
    value(text) {
      switch (type) {
        case "str":
        case "inlineStr":
          setOwnText(text);
          return;
        case "s":
          setSharedText(text.trim() === "" ? -1 : Number(text));
          return;
        case "b":
          cell.kind = CELL_KIND.boolean;
          cell.number = /^\s*(1|true)\s*$/.test(text) ? 1 : 0;
          return;
        case "e":
          if (!ERROR.test(text.trim())) throw damaged("holds an error without a proper name");
          cell.kind = CELL_KIND.error;
          cell.number = builder.addText(text.trim());
          return;
        case "n":
        case "d":
          if (text === "") return;
          cell.kind = CELL_KIND.number;
          if (type === "d") cell.number = dateSerial(text, usesDate1904);
          else cell.number = NUMBER.test(text) ? Number(text) : Number.NaN;
          if (!Number.isFinite(cell.number)) throw damaged(`holds “${text.slice(0, 40)}” where a number belongs`);
          return;
        default:
          throw damaged(`has the unknown type ${type.slice(0, 20)}`);
      }
    },
    closeCell(end) {
      cell.end = end;
      builder.addCell(cell);
    },
    build: () => builder.build(),
  };
}
