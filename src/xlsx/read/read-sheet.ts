import { type CellRange, parseRange } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readPart, relationshipsOf } from "../package/read-part.js";
import type { Sheet } from "../sheet.js";
import type { SheetEntry, Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { bytesOf, indexOfBytes } from "../xml/plain-xml.js";
import { type ByteRange, prefixAt, readXml, type XmlHandler } from "../xml/read-xml.js";
import { type CellTable, cellTable, type StoredFormula } from "./cell-table.js";
import { type CellCollector, type CellContext, makeCellCollector } from "./collect-cells.js";
import { readComments } from "./comments.js";
import { filteredRangesOf, makeFilterReader, type SheetFilter } from "./filters.js";
import { readPlainFormulas, scanPlainRows } from "./scan-plain-rows.js";
import { makeSheetDataReader } from "./sheet-data.js";
import { makeColumnsReader, makeMergesReader, makeValidationsReader } from "./sheet-extras.js";
import { readTable } from "./tables.js";
import { isTrue } from "./workbook-part.js";

/** Sheets already read, so that reading twice costs nothing; forgotten with their workbook. */
const sheetsRead = new WeakMap<Workbook, Map<string, Sheet>>();

/** Finds a sheet by name, whatever its case. */
export function findSheetEntry(workbook: Workbook, name: string): SheetEntry | undefined {
  const wanted = name.toLowerCase();
  return workbook.sheets.find((sheet) => sheet.name.toLowerCase() === wanted);
}

/**
 * Reads a worksheet: cells, merged ranges, rules on input, protection, tables and comments.
 *
 * @param workbook - The workbook
 * @param name - The sheet's name, in any case
 * @returns The sheet; the same object each time
 * @throws {WorkbookFileError} When there is no such worksheet or its part is damaged
 */
export function readSheet(workbook: Workbook, name: string): Sheet {
  const entry = findSheetEntry(workbook, name);
  if (entry === undefined || entry.kind !== "worksheet") {
    const problem = entry === undefined ? `has no sheet “${name}”` : `keeps no cells on its sheet “${name}”`;
    const names = workbook.sheets.filter(({ kind }) => kind === "worksheet").map((sheet) => `“${sheet.name}”`);
    throw new WorkbookFileError("refused-edit", workbook.fileName, problem, `Its sheets are ${names.join(", ")}.`);
  }
  const known = sheetsRead.get(workbook) ?? new Map<string, Sheet>();
  sheetsRead.set(workbook, known);
  const sheet = known.get(entry.partName) ?? readWorksheet(workbook, entry);
  known.set(entry.partName, sheet);
  return sheet;
}

function readWorksheet(workbook: Workbook, entry: SheetEntry): Sheet {
  const { archive, strings, usesDate1904 } = workbook;
  const place = `${archive.fileName}, sheet “${entry.name}”`;
  // Unpacked again for its formulas where somebody asks for them: kept, it would take more memory than all its cells.
  const bytesOfPart = () => readPart(archive, entry.partName, WORKBOOK_LIMITS.partBytes);
  const { filter, ...parts } = readSheetXml(bytesOfPart(), place, { place, strings, usesDate1904 }, (cells) =>
    readPlainFormulas(bytesOfPart(), cells),
  );
  const relationships = relationshipsOf(archive, entry.partName).filter(({ isExternal }) => !isExternal);
  const targets = (kind: string) => relationships.filter((relationship) => relationship.kind === kind);
  const tables = targets("table").map(({ target }) =>
    readTable(readPart(archive, target), placeOf(archive, target), target),
  );
  return {
    name: entry.name,
    partName: entry.partName,
    workbook,
    ...parts,
    tables,
    filteredRanges: filteredRangesOf(entry.name, filter, tables, workbook.names),
    comments: targets("comments").flatMap(({ target }) =>
      readComments(readPart(archive, target), placeOf(archive, target)),
    ),
  };
}

type SheetXml = Pick<Sheet, "cells" | "mergedRanges" | "validations" | "isProtected" | "layout"> & {
  readonly filter: SheetFilter;
};

type FormulaReader = (cells: CellTable) => readonly StoredFormula[];

const DATA_START = bytesOf("<sheetData>");

/** Reads a sheet's part: the rows by themselves when they are plain, all the rest through the XML parser. */
function readSheetXml(bytes: Uint8Array, place: string, context: CellContext, readFormulas: FormulaReader): SheetXml {
  const start = indexOfBytes(bytes, DATA_START) + DATA_START.length;
  if (start >= DATA_START.length) {
    const cells = makeCellCollector(context);
    const end = scanPlainRows(bytes, start, cells);
    const rest = end < 0 ? undefined : readRest(bytes, place, cells, readFormulas, { start, end });
    // Otherwise what looked like the list of cells stood in a comment or deeper down.
    if (rest?.layout.sheetData.openEnd === start) return rest;
  }
  return readRest(bytes, place, makeCellCollector(context), readFormulas, undefined);
}

function readRest(
  bytes: Uint8Array,
  place: string,
  cells: CellCollector,
  readFormulas: FormulaReader,
  rows: ByteRange | undefined,
): SheetXml {
  const data = makeSheetDataReader(cells);
  const merges = makeMergesReader();
  const columns = makeColumnsReader();
  const validations = makeValidationsReader();
  const filter = makeFilterReader();
  const sections = new Map<string, XmlHandler>([
    ["sheetData", data],
    ["mergeCells", merges],
    ["cols", columns],
    ["dataValidations", validations],
    ["extLst", validations],
    ["autoFilter", filter],
  ]);
  const seen = new Set<string>();
  let section: XmlHandler | undefined;
  let prefix = "";
  let isProtected = false;
  let isInFilterMode = false;
  let dimension: { range: CellRange | undefined; start: number; end: number } | undefined;
  let sheetData: { start: number; openEnd: number; closeStart: number; end: number } | undefined;
  const handler: XmlHandler = {
    open(name, attributes, depth, start, end) {
      if (depth > 2) return section?.open?.(name, attributes, depth, start, end);
      if (depth === 1) {
        if (name !== "worksheet") throw damaged(place, "is not a worksheet");
        prefix = prefixAt(bytes, start);
        return;
      }
      section = sections.get(name);
      if (section !== undefined && seen.has(name)) throw damaged(place, `has two lists named ${name}`);
      seen.add(name);
      if (name === "autoFilter") filter.open(name, attributes, depth, start, end);
      if (name === "sheetPr") isInFilterMode = isTrue(attributes["filterMode"]);
      if (name === "sheetProtection") isProtected = isTrue(attributes["sheet"]);
      if (name === "dimension") dimension = { range: parseRange(attributes["ref"] ?? ""), start, end };
      if (name === "sheetData") sheetData = { start, openEnd: end, closeStart: end, end };
    },
    text(chunk) {
      section?.text?.(chunk);
    },
    close(name, depth, start, end) {
      if (depth > 2) return section?.close?.(name, depth, start, end);
      if (depth === 2 && name === "sheetData" && sheetData !== undefined) {
        sheetData = { ...sheetData, closeStart: start, end };
      }
      section = undefined;
    },
  };
  readXml(bytes, place, handler, rows);
  if (sheetData === undefined) throw damaged(place, "has no list of cells");
  return {
    cells: cellTable(cells.builder, readFormulas),
    mergedRanges: merges.ranges,
    validations: validations.validations,
    isProtected,
    filter: { filteredRange: filter.filteredRange(), isInFilterMode },
    layout: { prefix, dimension, sheetData, columnStyles: columns.styles },
  };
}

function damaged(place: string, problem: string): WorkbookFileError {
  const advice = "Open it in your spreadsheet program, let it repair the file, and save it again.";
  return new WorkbookFileError("damaged-workbook", place, problem, advice);
}
