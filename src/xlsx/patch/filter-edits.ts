import { type CellRange, formatRange, parseRange } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readPart } from "../package/read-part.js";
import { findRow } from "../read/cell-table.js";
import { readSheet } from "../read/read-sheet.js";
import type { Sheet, Table } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { prefixAt, readXml } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { encodeXstring, escapeXml } from "../xml/text.js";
import { utf8Text } from "../xml/utf8.js";
import type { PartEdit } from "./edits.js";

/** What is to be seen of a table. */
export interface TableFilter {
  readonly sheet: string;
  /** The table, by its block with headings and totals: A8:AD38. */
  readonly range: string;
  /**
   * The texts of the cells to be seen, by the places of their columns, counted from 0; "" stands for empty cells. A column
   * with null keeps the criterion that the file has for it.
   */
  readonly choices: Readonly<Record<string, readonly string[] | null>>;
  /** The rows that are hidden for it, as cells count: from 1. */
  readonly hiddenRows: readonly number[];
}

/** The rows of a table between its headings and its totals. */
function bodyOf({ range, headerRows, totalsRows }: Table): { readonly first: number; readonly last: number } {
  return { first: range.firstRow + headerRows, last: range.lastRow - totalsRows };
}

function columnXml(prefix: string, index: number, values: readonly string[]): string {
  const blank = values.includes("") ? ' blank="1"' : "";
  const list = values
    .filter((value) => value !== "")
    .map((value) => `<${prefix}filter val="${escapeXml(encodeXstring(value))}"/>`)
    .join("");
  return `<${prefix}filterColumn colId="${index}"><${prefix}filters${blank}>${list}</${prefix}filters></${prefix}filterColumn>`;
}

/** What a table's part says of its filter now. */
interface FilterXml {
  readonly start: number;
  readonly openEnd: number;
  readonly end: number;
  readonly columns: ReadonlyMap<number, string>;
  /** What comes behind the columns: a state of sorting, notes of programs. */
  readonly rest: string;
}

function readFilterXml(part: Uint8Array, place: string): { readonly rootEnd: number; readonly filter?: FilterXml } {
  let rootEnd = 0;
  let [start, openEnd, end, childStart, column] = [-1, -1, -1, -1, -1];
  const columns = new Map<number, string>();
  let rest = "";
  let isIn = false;
  readXml(part, place, {
    open(name, attributes, depth, from, to) {
      if (depth === 1) rootEnd = to;
      if (depth === 2) {
        isIn = name === "autoFilter";
        if (isIn) [start, openEnd, end] = [from, to, to];
      }
      if (depth !== 3 || !isIn) return;
      childStart = from;
      column = name === "filterColumn" ? Number(attributes["colId"]) : -1;
    },
    close(_name, depth, _from, to) {
      if (!isIn) return;
      if (depth === 2) end = to;
      if (depth !== 3) return;
      const text = utf8Text(part.subarray(childStart, to));
      if (column < 0) rest += text;
      else columns.set(column, text);
    },
  });
  return start < 0 ? { rootEnd } : { rootEnd, filter: { start, openEnd, end, columns, rest } };
}

/** A column's button may be hidden: that is no criterion, and stays. */
function withoutCriterion(text: string): string {
  const [tag = ""] = /^<(?:"[^"]*"|'[^']*'|[^>"'])*>/.exec(text) ?? [];
  return /\s(?:hiddenButton|showButton)\s*=/.test(tag) ? changeTag(tag, {}, "/>") : "";
}

function tableSplice(part: Uint8Array, place: string, table: Table, { choices }: TableFilter): Splice {
  const { rootEnd, filter } = readFilterXml(part, place);
  const prefix = prefixAt(part, filter?.start ?? part.lastIndexOf(0x3c, rootEnd - 1));
  const known = filter?.columns ?? new Map<number, string>();
  const places = [...new Set([...known.keys(), ...Object.keys(choices).map(Number)])].sort((one, other) => one - other);
  const columns = places.map((index) => {
    const choice = choices[index];
    const before = known.get(index) ?? "";
    if (choice === null) return before;
    return choice === undefined ? withoutCriterion(before) : columnXml(prefix, index, choice);
  });
  const inside = columns.join("") + (filter?.rest ?? "");
  if (filter === undefined) {
    const ref = formatRange({ ...table.range, lastRow: bodyOf(table).last });
    return { start: rootEnd, end: rootEnd, text: `<${prefix}autoFilter ref="${ref}">${inside}</${prefix}autoFilter>` };
  }
  const tag = utf8Text(part.subarray(filter.start, filter.openEnd));
  const text = inside === "" ? changeTag(tag, {}, "/>") : `${changeTag(tag, {}, ">")}${inside}</${prefix}autoFilter>`;
  return { start: filter.start, end: filter.end, text };
}

/** Hides and shows the rows of a table's body, and no other row. */
function rowSplices(sheet: Sheet, part: Uint8Array, table: Table, hiddenRows: ReadonlySet<number>): readonly Splice[] {
  const { cells, layout } = sheet;
  const { first, last } = bodyOf(table);
  const splices: Splice[] = [];
  for (let row = first; row <= last; row += 1) {
    const index = findRow(cells, row);
    const isHidden = hiddenRows.has(row);
    if (index < 0) {
      const next = ~index;
      const start = next < cells.rowCount ? (cells.rowStarts[next] as number) : layout.sheetData.closeStart;
      if (isHidden) splices.push({ start, end: start, text: `<${layout.prefix}row r="${row}" hidden="1"/>` });
      continue;
    }
    if ((cells.rowsHidden[index] === 1) === isHidden) continue;
    const [start, end] = [cells.rowStarts[index] as number, cells.rowOpenEnds[index] as number];
    const tag = utf8Text(part.subarray(start, end));
    const text = changeTag(tag, { hidden: isHidden ? "1" : undefined }, tag.endsWith("/>") ? "/>" : ">");
    splices.push({ start, end, text });
  }
  return splices;
}

function isAt(one: CellRange, other: CellRange | undefined): boolean {
  return other !== undefined && one.firstRow === other.firstRow && one.firstColumn === other.firstColumn;
}

/**
 * Returns the edits that put the filters of tables into a file: the criteria into the parts of the tables, and which rows
 * are hidden into those of their sheets. Everything else in these parts stays as it is.
 *
 * @param workbook - As opened
 * @param filters - One for each table whose filter changed
 * @throws {WorkbookFileError} Where the file has no such table
 * @source ECMA-376-1:2016, sections 18.3.1.2 (autoFilter), 18.3.2.7 (filterColumn) and 18.3.2.8 (filters)
 */
export function filterEdits(workbook: Workbook, filters: readonly TableFilter[]): readonly PartEdit[] {
  const { archive } = workbook;
  const splices = new Map<string, Splice[]>();
  const add = (partName: string, more: readonly Splice[]): void => {
    splices.set(partName, [...(splices.get(partName) ?? []), ...more]);
  };
  const bytesOf = (partName: string): Uint8Array => readPart(archive, partName, WORKBOOK_LIMITS.partBytes);
  for (const filter of filters) {
    const sheet = readSheet(workbook, filter.sheet);
    const table = sheet.tables.find(({ range }) => isAt(range, parseRange(filter.range)));
    if (table === undefined) {
      const place = `${archive.fileName}, sheet “${filter.sheet}”`;
      const advice = "Show all rows on the page, and save again.";
      throw new WorkbookFileError("refused-edit", place, `has no table at ${filter.range} to filter`, advice);
    }
    add(table.partName, [tableSplice(bytesOf(table.partName), placeOf(archive, table.partName), table, filter)]);
    add(sheet.partName, rowSplices(sheet, bytesOf(sheet.partName), table, new Set(filter.hiddenRows)));
  }
  return [...splices].flatMap(([partName, list]) =>
    list.length === 0 ? [] : [{ kind: "part", partName, content: spliceBytes(bytesOf(partName), list) }],
  );
}
