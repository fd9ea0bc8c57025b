import { WORKBOOK_LIMITS } from "../limits.js";
import {
  attribute,
  bytesOf,
  EMPTY,
  LESS_THAN,
  NOT_PLAIN,
  OPEN,
  type PlainXml,
  plainXmlAt,
  readTag,
  readText,
  skipSpace,
  skipText,
  startsWith,
  usualValue,
} from "../xml/plain-xml.js";
import { decodeXstring } from "../xml/text.js";
import { addFormula, type CellTable, type StoredFormula } from "./cell-table.js";
import {
  type CellCollector,
  closeCell,
  closeRow,
  noteFormula,
  openCell,
  openRow,
  takeInlineText,
  takeNumber,
  takePlacedText,
  takeRepeatedText,
  takeSharedText,
  takeValue,
} from "./collect-cells.js";
import { decimalNumber, wholeNumber } from "./plain-numbers.js";
import { isTrue } from "./workbook-part.js";

const MAX_STYLE = 0x7fffffff;
const USUAL_TYPES = ["s", "str", "n", "b", "e"];

const ROW = bytesOf("<row");
const ROW_END = bytesOf("</row>");
const CELL = bytesOf("<c");
const CELL_END = bytesOf("</c>");
const FORMULA = bytesOf("<f");
const FORMULA_END = bytesOf("</f>");
const VALUE = bytesOf("<v");
const VALUE_END = bytesOf("</v>");
const INLINE = bytesOf("<is><t");
const INLINE_END = bytesOf("</t></is>");
const DATA_END = bytesOf("</sheetData>");

/**
 * Reads rows that are spelled as spreadsheet programs spell them nearly always: no prefixes, comments or instructions,
 * attributes in double quotes, known elements in their order. Ten times as fast as hearing an XML parser out. Whatever is
 * spelled otherwise is left to the parser, so nothing gets past that the parser would refuse.
 *
 * @param bytes - The sheet's part
 * @param from - After the tag that opens the list of rows
 * @param cells - Takes rows and cells; of no use when the rows turn out not to be plain
 * @returns Where the list's closing tag starts, or -1 when something is spelled otherwise
 */
export function scanPlainRows(bytes: Uint8Array, from: number, cells: CellCollector): number {
  const xml = plainXmlAt(bytes, from);
  for (;;) {
    skipSpace(xml);
    if (startsWith(xml, DATA_END)) return xml.at;
    const rowStart = xml.at;
    if (!startsWith(xml, ROW)) return -1;
    xml.at += ROW.length;
    const ending = readTag(xml);
    if (ending === NOT_PLAIN) return -1;
    const row = attribute(xml, "r");
    const customFormat = attribute(xml, "customFormat");
    const style = customFormat === undefined ? undefined : attribute(xml, "s");
    if ((row !== undefined && !/^[1-9]\d{0,6}$/.test(row)) || (style !== undefined && !/^\d{1,9}$/.test(style)))
      return -1;
    const hidden = isTrue(attribute(xml, "hidden")) ? 1 : 0;
    openRow(cells, Number(row ?? 0), isTrue(customFormat) ? Number(style ?? 0) : -1, hidden, rowStart, xml.at);
    if (ending === OPEN) {
      skipSpace(xml);
      while (!startsWith(xml, ROW_END)) {
        const start = xml.at;
        if (!startsWith(xml, CELL)) return -1;
        xml.at += CELL.length;
        if (!readCell(xml, cells, start)) return -1;
        skipSpace(xml);
      }
      xml.at += ROW_END.length;
    }
    closeRow(cells, xml.at);
  }
}

/** Reads the rest of a cell's opening tag and its content; false when it is not plain. */
function readCell(xml: PlainXml, cells: CellCollector, start: number): boolean {
  const ending = readTag(xml);
  if (ending === NOT_PLAIN) return false;
  let row = 0;
  let column = 0;
  let style = 0;
  let type = "n";
  for (let index = 0; index < xml.attributeCount; index += 1) {
    const nameStart = xml.nameStarts[index] as number;
    const valueStart = xml.valueStarts[index] as number;
    const valueEnd = xml.valueEnds[index] as number;
    const name = xml.bytes[nameStart];
    const length = (xml.nameEnds[index] as number) - nameStart;
    if (length === 1 && name === 0x72) {
      let digits = valueStart;
      for (
        let letter = xml.bytes[digits] as number;
        letter >= 65 && letter <= 90;
        letter = xml.bytes[digits] as number
      ) {
        column = column * 26 + letter - 64;
        digits += 1;
      }
      row = wholeNumber(xml.bytes, digits, valueEnd);
      if (column < 1 || digits - valueStart > 3 || xml.bytes[digits] === 48 || row < 1) return false;
    } else if (length === 1 && name === 0x73) {
      style = wholeNumber(xml.bytes, valueStart, valueEnd);
      if (style < 0 || style > MAX_STYLE) return false;
    } else if (length === 1 && name === 0x74) type = usualValue(xml, index, USUAL_TYPES);
    else if (length !== 2) return false;
  }
  openCell(cells, row, column, style, type, start);
  if (ending === OPEN && !readContent(xml, cells, type)) return false;
  closeCell(cells, xml.at);
  return true;
}

function readContent(xml: PlainXml, cells: CellCollector, type: string): boolean {
  skipSpace(xml);
  if (startsWith(xml, FORMULA)) {
    if (!passFormula(xml, cells)) return false;
    skipSpace(xml);
  }
  if (startsWith(xml, VALUE)) {
    xml.at += VALUE.length;
    const ending = readTag(xml);
    if (ending === NOT_PLAIN) return false;
    if (ending === EMPTY) takeValue(cells, "");
    else if (!readValue(xml, cells, type)) return false;
    skipSpace(xml);
  } else if (startsWith(xml, INLINE)) {
    if (type !== "inlineStr") return false;
    xml.at += INLINE.length;
    if (readTag(xml) !== OPEN) return false;
    const text = readText(xml);
    if (text === undefined || !startsWith(xml, INLINE_END)) return false;
    xml.at += INLINE_END.length;
    takeInlineText(cells, text);
    skipSpace(xml);
  }
  if (!startsWith(xml, CELL_END)) return false;
  xml.at += CELL_END.length;
  return true;
}

function passValueEnd(xml: PlainXml): boolean {
  if (!startsWith(xml, VALUE_END)) return false;
  xml.at += VALUE_END.length;
  return true;
}

function readValue(xml: PlainXml, cells: CellCollector, type: string): boolean {
  const start = xml.at;
  if (type === "n" || type === "s") {
    const end = xml.bytes.indexOf(LESS_THAN, xml.at);
    if (end < 0) return false;
    const number = type === "s" ? wholeNumber(xml.bytes, start, end) : decimalNumber(xml.bytes, start, end);
    if (number >= 0 || number < 0) {
      xml.at = end;
      if (!passValueEnd(xml)) return false;
      if (type === "n") takeNumber(cells, number);
      else if (number >= 0) takeSharedText(cells, number);
      else return false;
      return true;
    }
  }
  if (type === "str") {
    const end = xml.bytes.indexOf(LESS_THAN, start);
    if (takeRepeatedText(cells, xml.bytes, start, end)) {
      xml.at = end;
      return passValueEnd(xml);
    }
  }
  const text = readText(xml);
  const end = xml.at;
  // What the value is worth is asked only where it is spelled as it should be.
  if (text === undefined || !passValueEnd(xml)) return false;
  if (type === "str") takePlacedText(cells, text, start, end);
  else takeValue(cells, text);
  return true;
}

/** Passes over a formula, which is read when somebody asks for it. */
function passFormula(xml: PlainXml, cells: CellCollector): boolean {
  xml.at += FORMULA.length;
  const ending = readTag(xml);
  if (ending === NOT_PLAIN) return false;
  const { kind, share } = formulaAttributes(xml);
  let length = 0;
  if (ending === OPEN) {
    const start = xml.at;
    if (!skipText(xml) || !startsWith(xml, FORMULA_END)) return false;
    length = xml.at - start;
    if (length > WORKBOOK_LIMITS.formulaLength) {
      // Its entities are longer than what they stand for.
      xml.at = start;
      length = readText(xml)?.length ?? 0;
    }
    xml.at += FORMULA_END.length;
  }
  noteFormula(cells, kind, share, length);
  return true;
}

type FormulaAttributes = Pick<StoredFormula, "kind" | "range"> & { readonly share: number };

const PLAIN_FORMULA: FormulaAttributes = { kind: "plain", range: undefined, share: -1 };

/** What the tag read last says of its formula; `share` is the number by which formulas share their text. */
function formulaAttributes(xml: PlainXml): FormulaAttributes {
  if (xml.attributeCount === 0) return PLAIN_FORMULA;
  const type = attribute(xml, "t");
  const kind = type === "shared" || type === "array" || type === "dataTable" ? type : "plain";
  return { kind, range: attribute(xml, "ref"), share: kind === "shared" ? Number(attribute(xml, "si") ?? -1) : -1 };
}

/** Reads the formulas of a sheet whose rows `scanPlainRows` has passed over. */
export function readPlainFormulas(bytes: Uint8Array, cells: CellTable): readonly StoredFormula[] {
  const builder = { formulaCount: 0, formulas: [], masters: new Map<number, number>() };
  const xml = plainXmlAt(bytes, 0);
  for (let rowIndex = 0; rowIndex < cells.rowCount; rowIndex += 1) {
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    for (let index = cells.rowFirstCells[rowIndex] as number; index < end; index += 1) {
      if ((cells.formulaIndexes[index] as number) < 0) continue;
      xml.at = (cells.starts[index] as number) + CELL.length;
      readTag(xml);
      const isDynamic = (attribute(xml, "cm") ?? "0") !== "0";
      skipSpace(xml);
      const start = xml.at;
      xml.at += FORMULA.length;
      const isOpen = readTag(xml) === OPEN;
      const { kind, range, share } = formulaAttributes(xml);
      const text = decodeXstring(isOpen ? (readText(xml) ?? "") : "");
      if (isOpen) xml.at += FORMULA_END.length;
      const [row, column] = [cells.rowNumbers[rowIndex] as number, cells.columns[index] as number];
      addFormula(builder, { kind, text, range, isDynamic, row, column, masterIndex: -1, start, end: xml.at }, share);
    }
  }
  return builder.formulas;
}
