import { parseAddress } from "../address.js";
import type { XmlAttributes, XmlHandler } from "../xml/read-xml.js";
import {
  type CellCollector,
  closeCell,
  closeRow,
  damagedCell,
  openCell,
  openRow,
  takeFormula,
  takeInlineText,
  takeTail,
  takeValue,
} from "./collect-cells.js";
import { isTrue } from "./workbook-part.js";

/** What a cell holds, in this order, each at most once; anything else comes behind. */
const CELL_CONTENT = ["f", "v", "is"];

const NO_ATTRIBUTES: XmlAttributes = Object.freeze(Object.create(null) as Record<string, string>);

/**
 * Hears what lies inside `sheetData`, however it is spelled, and hands it to a collector.
 *
 * @source ECMA-376-1:2016, sections 18.3.1.4 (c), 18.3.1.40 (f), 18.3.1.73 (row) and 18.3.1.80 (sheetData)
 */
export function makeSheetDataReader(cells: CellCollector): XmlHandler {
  let valueText = "";
  let hasValue = false;
  let inlineText: string | undefined;
  let cellAttributes = NO_ATTRIBUTES;
  let formulaAttributes = NO_ATTRIBUTES;
  let formulaStart = 0;
  let formulaText = "";
  let collecting: "value" | "formula" | "inline" | undefined;
  let isPhonetic = false;
  let contentReached = 0;
  // What stands in an element that is no row, or no cell, is none of ours.
  let isInRow = false;
  let isInCell = false;

  function toIndex(text: string | undefined): number {
    const index = Number(text ?? 0);
    if (!Number.isInteger(index) || index < 0 || index > 0x7fffffff)
      throw damagedCell(cells, "has an impossible style");
    return index;
  }

  function beginRow(attributes: XmlAttributes, start: number, end: number): void {
    const style = isTrue(attributes["customFormat"]) ? toIndex(attributes["s"]) : -1;
    const row = attributes["r"] === undefined ? 0 : Number(attributes["r"]);
    const hidden = isTrue(attributes["hidden"]) ? 1 : 0;
    openRow(cells, row === 0 && attributes["r"] !== undefined ? -1 : row, style, hidden, start, end);
  }

  function beginCell(attributes: XmlAttributes, start: number): void {
    cellAttributes = attributes;
    const { r: address, s: style, t: type = "n" } = attributes;
    const position = address === undefined ? { row: 0, column: 0 } : parseAddress(address);
    if (position === undefined)
      throw damagedCell(cells, `or a cell after it is called ${address?.slice(0, 20)}, which is not a cell`);
    openCell(cells, position.row, position.column, toIndex(style), type, start);
    valueText = "";
    hasValue = false;
    inlineText = undefined;
    contentReached = 0;
  }

  /** Out of order, nobody could tell which formula or value counts, and a new value would stand beside the old one. */
  function reachContent(name: string): void {
    const index = CELL_CONTENT.indexOf(name);
    const place = index < 0 ? CELL_CONTENT.length : index;
    if (place < contentReached) throw damagedCell(cells, "holds a formula or a value twice or in the wrong order");
    contentReached = index < 0 ? place : place + 1;
  }

  function endFormula(end: number): void {
    const { t, ref: range, si } = formulaAttributes;
    const kind = t === "shared" || t === "array" || t === "dataTable" ? t : "plain";
    const isDynamic = (cellAttributes["cm"] ?? "0") !== "0";
    takeFormula(cells, {
      kind,
      text: formulaText,
      range,
      isDynamic,
      share: Number(si ?? -1),
      start: formulaStart,
      end,
    });
  }

  return {
    open(name, attributes, depth, start, end) {
      if (depth === 3) {
        isInRow = name === "row";
        if (isInRow) beginRow(attributes, start, end);
      } else if (!isInRow) return;
      else if (depth === 4) {
        isInCell = name === "c";
        if (isInCell) beginCell(attributes, start);
      } else if (!isInCell) return;
      else if (depth === 5) {
        reachContent(name);
        if (name === "v") {
          collecting = "value";
          hasValue = true;
        } else if (name === "f") {
          collecting = "formula";
          formulaAttributes = attributes;
          formulaStart = start;
          formulaText = "";
        } else if (name === "is") inlineText = "";
        else takeTail(cells, start);
      } else if (name === "rPh") isPhonetic = true;
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
      if (depth === 5 && isInCell && name === "f") endFormula(end);
      else if (depth === 4 && isInCell) {
        if (inlineText !== undefined && cellAttributes["t"] === "inlineStr") takeInlineText(cells, inlineText);
        else if (hasValue) takeValue(cells, valueText);
        closeCell(cells, end);
        isInCell = false;
      } else if (depth === 3 && isInRow) closeRow(cells, end);
      else if (name === "rPh") isPhonetic = false;
    },
  };
}
