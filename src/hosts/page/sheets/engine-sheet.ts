import { typedContent } from "../../../engine/index.js";
import type { DemoSheet, LookRange } from "../../../workbook/index.js";
import { FRAMED, VERDICT_COLORS } from "./looks.js";

/** Numbers under which the workbook's own lists keep each look, format and frame. */
export interface Numbering {
  readonly look: (look: LookRange["look"]) => number;
  readonly format: (format: string) => number;
  readonly frame: number;
}

const SPARE_COLUMNS = 4;
const SPARE_ROWS = 200;

function byRange<Value>(entries: readonly (readonly [range: string, value: Value])[]): Record<string, Value> {
  return Object.fromEntries(entries);
}

function conditionalFormats(sheet: DemoSheet) {
  return sheet.verdicts.flatMap((range, place) =>
    Object.entries(VERDICT_COLORS).map(([word, colors]) => ({
      id: `verdict-${place}-${word}`,
      ranges: [range],
      rule: { type: "CellIsRule", operator: "isEqual", values: [word], style: { ...colors, bold: true } },
    })),
  );
}

/** A wrong entry stays and is marked: the formulas beside it say what is wrong. */
function validations(sheet: DemoSheet) {
  return sheet.accepts.map((accepts, place) => ({
    id: `accepts-${place}`,
    ranges: [accepts.range],
    isBlocking: false,
    criterion:
      "list" in accepts
        ? { type: "isValueInList", values: [...accepts.list], displayStyle: "plainText" }
        : { type: "isBetween", values: [String(accepts.from), String(accepts.to)] },
  }));
}

/** Returns a sheet of the demonstration in the engine's own form. */
export function engineSheet(sheet: DemoSheet, id: string, numbering: Numbering, figures: readonly object[]) {
  const cells = Object.entries(sheet.cells);
  const lastRow = Math.max(...cells.map(([address]) => Number(address.replace(/^[A-Z]+/, ""))));
  return {
    id,
    name: sheet.name,
    colNumber: Math.max(26, sheet.widths.length + SPARE_COLUMNS),
    rowNumber: lastRow + SPARE_ROWS,
    cells: Object.fromEntries(cells.map(([address, text]) => [address, contentOf(text)])),
    styles: byRange(sheet.looks.map(({ range, look }) => [range, numbering.look(look)])),
    formats: byRange(sheet.looks.flatMap(({ range, format }) => (format ? [[range, numbering.format(format)]] : []))),
    borders: byRange(sheet.looks.filter(({ look }) => FRAMED.has(look)).map(({ range }) => [range, numbering.frame])),
    merges: [...sheet.merges],
    figures,
    cols: Object.fromEntries(sheet.widths.map((size, column) => [column, { size }])),
    rows: {},
    conditionalFormats: conditionalFormats(sheet),
    dataValidationRules: validations(sheet),
    tables: [],
    areGridLinesVisible: false,
    isVisible: true,
    panes: { xSplit: sheet.frozenColumns, ySplit: sheet.frozenRows },
  };
}

/** Plans hold numbers as text; a text of theirs that is a number is one. */
function contentOf(text: string): string {
  return text !== "" && Number.isFinite(Number(text)) ? text : typedContent(text);
}
