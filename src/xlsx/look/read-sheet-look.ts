import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readOptionalPart, readPart } from "../package/read-part.js";
import { isTrue } from "../read/workbook-part.js";
import type { Sheet } from "../sheet.js";
import { readXml, type XmlAttributes, type XmlHandler } from "../xml/read-xml.js";
import { latin1Text } from "../xml/utf8.js";
import { colorOf, readThemeColors } from "./colors.js";
import { makeRulesReader } from "./read-rules.js";
import type { SheetLook } from "./sheet-look.js";

type Draft = { -readonly [Key in keyof SheetLook]: SheetLook[Key] };

/**
 * Reads how a sheet is laid out: sizes, what is hidden, what stays in view, and conditional formats.
 *
 * @source ECMA-376-1:2016, sections 18.3.1.13 (col), 18.3.1.18 (conditionalFormatting), 18.3.1.66 (pane),
 *   18.3.1.73 (row), 18.3.1.81 (sheetFormatPr) and 18.3.1.87 (sheetView)
 */
export function readSheetLook(sheet: Sheet): SheetLook {
  const { workbook, partName, layout } = sheet;
  const bytes = readPart(workbook.archive, partName, WORKBOOK_LIMITS.partBytes);
  const theme = themeOf(sheet);
  const rules = makeRulesReader(theme);
  const columns: SheetLook["columns"][number][] = [];
  const look: Draft = {
    defaultWidth: undefined,
    defaultHeightPt: undefined,
    columns,
    rows: rowsOf(sheet, bytes),
    frozen: { rows: 0, columns: 0 },
    showsGridLines: true,
    tabColor: undefined,
    rules: [],
  };
  const handler: XmlHandler = {
    open(name, attributes, depth, start, end) {
      if (name === "col" && depth === 3) columns.push(columnOf(attributes));
      else if (name === "sheetFormatPr") {
        look.defaultWidth = sizeOf(attributes["defaultColWidth"]);
        look.defaultHeightPt = sizeOf(attributes["defaultRowHeight"]);
      } else if (name === "sheetView") look.showsGridLines = isShown(attributes["showGridLines"]);
      else if (name === "pane") look.frozen = frozenOf(attributes);
      else if (name === "tabColor") look.tabColor = colorOf(attributes, theme);
      else rules.open?.(name, attributes, depth, start, end);
    },
    text: (chunk) => rules.text?.(chunk),
    close: (name, depth, start, end) => rules.close?.(name, depth, start, end),
  };
  const { openEnd, closeStart } = layout.sheetData;
  const hasRows = closeStart > openEnd;
  readXml(
    bytes,
    placeOf(workbook.archive, partName),
    handler,
    hasRows ? { start: openEnd, end: closeStart } : undefined,
  );
  return { ...look, rules: rules.rules.toSorted((one, other) => one.priority - other.priority) };
}

function themeOf({ workbook }: Sheet): readonly string[] {
  const partName = workbook.relationships.find(({ kind, isExternal }) => kind === "theme" && !isExternal)?.target;
  const bytes = partName === undefined ? undefined : readOptionalPart(workbook.archive, partName);
  return partName === undefined || bytes === undefined
    ? []
    : readThemeColors(bytes, placeOf(workbook.archive, partName));
}

function sizeOf(text: string | undefined): number | undefined {
  const size = Number(text);
  return text !== undefined && size >= 0 ? size : undefined;
}

function isShown(flag: string | undefined): boolean {
  return flag === undefined || isTrue(flag);
}

function columnOf({ min, max, width, hidden }: XmlAttributes): SheetLook["columns"][number] {
  return { first: Number(min), last: Number(max), width: sizeOf(width), isHidden: isTrue(hidden) };
}

function frozenOf({ state, xSplit, ySplit }: XmlAttributes): SheetLook["frozen"] {
  if (state !== "frozen" && state !== "frozenSplit") return { rows: 0, columns: 0 };
  const count = (text: string | undefined) => Math.max(0, Math.trunc(Number(text ?? 0)) || 0);
  return { rows: count(ySplit), columns: count(xSplit) };
}

const HEIGHT = /\sht\s*=\s*["']([^"']*)["']/;

/** Rows are read from their tags alone: the cells in them are known already. */
function rowsOf({ cells }: Sheet, bytes: Uint8Array): SheetLook["rows"] {
  const rows = new Map<number, { heightPt: number | undefined; isHidden: boolean }>();
  for (let index = 0; index < cells.rowCount; index += 1) {
    const tag = latin1Text(bytes.subarray(cells.rowStarts[index], cells.rowOpenEnds[index]));
    const heightPt = sizeOf(HEIGHT.exec(tag)?.[1]);
    const isHidden = cells.rowsHidden[index] === 1;
    if (heightPt !== undefined || isHidden) rows.set(cells.rowNumbers[index] as number, { heightPt, isHidden });
  }
  return rows;
}
