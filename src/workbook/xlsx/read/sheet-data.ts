import { formatAddress, parseAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import type { XmlAttributes, XmlHandler } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";
import { CELL_KIND, type CellRecord, type CellTable, makeCellTableBuilder } from "./cell-table.js";
import { dateSerial } from "./date-serial.js";
import { isTrue } from "./workbook-part.js";

const NUMBER = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;
const ERROR = /^#[A-Z0-9/_]+[!?]?$/;
const NO_ATTRIBUTES: XmlAttributes = Object.freeze(Object.create(null) as Record<string, string>);

export interface SheetDataContext {
  readonly place: string;
  readonly strings: readonly string[];
  readonly usesDate1904: boolean;
}

/**
 * Hears what lies inside `sheetData` and collects its cells.
 *
 * @source ECMA-376-1:2016, sections 18.3.1.4 (c), 18.3.1.40 (f), 18.3.1.73 (row) and 18.3.1.80 (sheetData)
 */
export function makeSheetDataReader(context: SheetDataContext): Required<XmlHandler> & { build(): CellTable } {
  const { place, strings, usesDate1904 } = context;
  const builder = makeCellTableBuilder();
  const cell: CellRecord = { column: 0, kind: 0, number: 0, style: 0, start: 0, end: 0, formulaIndex: -1 };
  let row = 0;
  let column = 0;
  let type = "n";
  let valueText = "";
  let hasValue = false;
  let inlineText: string | undefined;
  let formulaAttributes = NO_ATTRIBUTES;
  let formulaStart = 0;
  let formulaText = "";
  let collecting: "value" | "formula" | "inline" | undefined;
  let isPhonetic = false;

  const damaged = (problem: string): WorkbookFileError =>
    new WorkbookFileError(
      "damaged-workbook",
      place,
      `${formatAddress(row, Math.max(column, 1))} ${problem}`,
      "Open it in your spreadsheet program, let it repair the file, and save it again.",
    );

  function openRow(attributes: XmlAttributes, start: number, end: number): void {
    const previous = row;
    column = 0;
    row = attributes["r"] === undefined ? previous + 1 : Number(attributes["r"]);
    if (!Number.isInteger(row) || row < 1 || row > WORKBOOK_LIMITS.rows) {
      row = previous;
      throw damaged("is followed by a row outside the sheet");
    }
    if (row <= previous) throw damaged("stands in a row that comes twice or too late");
    const style = isTrue(attributes["customFormat"]) ? toIndex(attributes["s"]) : -1;
    builder.openRow(row, style, start, end);
  }

  function openCell(attributes: XmlAttributes, start: number): void {
    const address = attributes["r"];
    const previous = column;
    column += 1;
    if (address !== undefined) {
      const position = parseAddress(address);
      if (position === undefined || position.row !== row) {
        throw damaged(`or a cell near it is called ${address.slice(0, 20)}, which is not a cell of its row`);
      }
      column = position.column;
    }
    if (column <= previous) throw damaged("comes twice or too late in its row");
    if (column > WORKBOOK_LIMITS.columns) throw damaged("is followed by a cell outside the sheet");
    if (builder.cellCount() >= WORKBOOK_LIMITS.cells) {
      const problem = `holds more than ${WORKBOOK_LIMITS.cells} cells`;
      throw new WorkbookFileError("too-large", place, problem, "Remove rows that this job does not need.");
    }
    cell.column = column;
    cell.start = start;
    cell.style = attributes["s"] === undefined ? 0 : toIndex(attributes["s"]);
    cell.formulaIndex = -1;
    if (attributes["cm"] !== undefined && attributes["cm"] !== "0") builder.markDynamic();
    type = attributes["t"] ?? "n";
    valueText = "";
    hasValue = false;
    inlineText = undefined;
  }

  function toIndex(text: string | undefined): number {
    const index = Number(text ?? 0);
    if (!Number.isInteger(index) || index < 0 || index > 0x7fffffff) throw damaged("has an impossible style");
    return index;
  }

  function closeFormula(end: number): void {
    const { t = "normal", ref, si } = formulaAttributes;
    const kind = t === "shared" || t === "array" || t === "dataTable" ? t : "plain";
    const sharedNumber = kind === "shared" ? Number(si ?? -1) : -1;
    if (!Number.isInteger(sharedNumber) || (kind === "shared" && sharedNumber < 0)) {
      throw damaged("shares a formula without a number");
    }
    if (formulaText.length > WORKBOOK_LIMITS.formulaLength * 2) throw damaged("has a formula that is too long");
    // Empty text without a kind is no formula at all.
    if (kind === "plain" && formulaText === "") return;
    const text = decodeXstring(formulaText);
    const stored = { kind, text, range: ref, row, column, start: formulaStart, end } as const;
    cell.formulaIndex = builder.addFormula(stored, sharedNumber);
  }

  function closeCell(end: number): void {
    cell.end = end;
    readValue();
    builder.addCell(cell);
  }

  function setOwnText(text: string): void {
    cell.kind = CELL_KIND.ownText;
    cell.number = builder.addText(decodeXstring(text));
  }

  function readValue(): void {
    cell.kind = CELL_KIND.blank;
    cell.number = 0;
    if (type === "inlineStr") {
      if (inlineText !== undefined) setOwnText(inlineText);
      else if (hasValue) setOwnText(valueText);
      return;
    }
    if (!hasValue) return;
    switch (type) {
      case "str":
        setOwnText(valueText);
        return;
      case "s":
        cell.kind = CELL_KIND.sharedText;
        cell.number = Number(valueText);
        if (valueText.trim() === "" || strings[cell.number] === undefined)
          throw damaged("refers to a text that the file lacks");
        return;
      case "b":
        cell.kind = CELL_KIND.boolean;
        cell.number = isTrue(valueText.trim()) ? 1 : 0;
        return;
      case "e":
        if (!ERROR.test(valueText.trim())) throw damaged("holds an error without a proper name");
        cell.kind = CELL_KIND.error;
        cell.number = builder.addText(valueText.trim());
        return;
      case "n":
      case "d":
        if (valueText === "") return;
        cell.kind = CELL_KIND.number;
        cell.number =
          type === "d" ? dateSerial(valueText, usesDate1904) : NUMBER.test(valueText) ? Number(valueText) : Number.NaN;
        if (!Number.isFinite(cell.number)) throw damaged(`holds “${valueText.slice(0, 40)}” where a number belongs`);
        return;
      default:
        throw damaged(`has the unknown type ${type.slice(0, 20)}`);
    }
  }

  return {
    open(name, attributes, depth, start, end) {
      if (depth === 3 && name === "row") return openRow(attributes, start, end);
      if (depth === 4 && name === "c") return openCell(attributes, start);
      if (depth === 5) {
        if (name === "v") {
          collecting = "value";
          hasValue = true;
        } else if (name === "f") {
          collecting = "formula";
          formulaAttributes = attributes;
          formulaStart = start;
          formulaText = "";
        } else if (name === "is") inlineText = "";
        else builder.addTail(start);
        return;
      }
      if (name === "rPh") isPhonetic = true;
      else if (name === "t" && inlineText !== undefined && !isPhonetic) collecting = "inline";
    },
    text(chunk) {
      if (collecting === undefined) return;
      if (collecting === "value") valueText += chunk;
      else if (collecting === "formula") formulaText += chunk;
      else inlineText += chunk;
    },
    close(name, depth, _start, end) {
      collecting = undefined;
      if (depth === 5 && name === "f") closeFormula(end);
      else if (depth === 4 && name === "c") closeCell(end);
      else if (depth === 3 && name === "row") builder.closeRow(end);
      else if (name === "rPh") isPhonetic = false;
    },
    build: () => builder.build(),
  };
}
