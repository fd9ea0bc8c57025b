import { formatAddress, readSheet, type Sheet, valueAt, type Workbook } from "../../xlsx/index.js";
import type { RollUpIssue } from "./issue.js";
import { OUTLET_SOURCES, type OutletKey, type OutletSource } from "./outlet-columns.js";

/** A block of outlets on a sheet. */
export interface OutletBlock {
  readonly source: OutletSource;
  readonly sheet: Sheet;
  readonly headerRow: number;
  readonly lastRow: number;
  /** Column of what is read, from 1. */
  readonly columns: ReadonlyMap<OutletKey, number>;
}

/** Nobody puts a header lower or further right, and a foreign sheet may be very long. */
const HEADER_ROWS = 60;
const HEADER_COLUMNS = 120;

type Finding = Omit<RollUpIssue, "file">;

/** Finds the sheets from which a workbook's outlets are read: its job summaries, or else its room balances. */
export function findOutlets(workbook: Workbook): {
  readonly value: readonly OutletBlock[];
  readonly issues: readonly Finding[];
} {
  for (const source of OUTLET_SOURCES) {
    const wanted = new RegExp(`^${source.sheet}( ?\\d+)?$`, "i");
    const sheets = workbook.sheets.filter(({ name, kind }) => kind === "worksheet" && wanted.test(name.trim()));
    if (sheets.length === 0) continue;
    const found = sheets.map(({ name }) => readBlock(readSheet(workbook, name), source));
    return { value: found.flatMap(({ value }) => value), issues: found.flatMap(({ issues }) => issues) };
  }
  const names = OUTLET_SOURCES.map(({ name, sheet }) => `“${sheet}” of a ${name}`).join(" nor a sheet ");
  const message = `It holds neither a sheet ${names}. If it is a job, bring its outlets into the job summary template.`;
  return { value: [], issues: [{ code: "no-outlets-sheet", leftOut: "file", place: "", message }] };
}

function readBlock(
  sheet: Sheet,
  source: OutletSource,
): { readonly value: readonly OutletBlock[]; readonly issues: readonly Finding[] } {
  const headerRow = findHeaderRow(sheet, source);
  if (headerRow === undefined) {
    const message = `It has no row with the headers of a ${source.name}. Give its columns their headers back.`;
    return { value: [], issues: [{ code: "missing-column", leftOut: "file", place: sheet.name, message }] };
  }
  const headers = headersIn(sheet, headerRow);
  const columns = new Map<OutletKey, number>();
  const issues: Finding[] = [];
  for (const [key, header] of source.headers) {
    const places = headers.flatMap((text, index) => (text === header.toLowerCase() ? [index + 1] : []));
    const [first, second] = places;
    if (first !== undefined) columns.set(key, first);
    if (first === undefined) issues.push(missingColumn(sheet, source, key, header));
    else if (second !== undefined) {
      issues.push({
        code: "repeated-column",
        leftOut: "file",
        place: `${sheet.name}!${formatAddress(headerRow, second)}`,
        message: `The header “${header}” stands twice, so it cannot be told which column counts. Rename one of them.`,
      });
    }
  }
  const unusable = issues.filter(({ leftOut }) => leftOut === "file");
  if (unusable.length > 0) return { value: [], issues: unusable };
  return { value: [{ source, sheet, headerRow, lastRow: lastRowOf(sheet, headerRow), columns }], issues };
}

function missingColumn(sheet: Sheet, source: OutletSource, key: OutletKey, header: string): Finding {
  const isRequired = source.required.includes(key);
  return {
    code: "missing-column",
    leftOut: isRequired ? "file" : "note",
    place: sheet.name,
    message: isRequired
      ? `It has no column “${header}”, without which its outlets cannot be counted. Give the column its header back.`
      : `It has no column “${header}”; what would stand there is taken as not given.`,
  };
}

/** The row that holds most of the headers, among those that hold at least two; a table's own is looked at first. */
function findHeaderRow(sheet: Sheet, source: OutletSource): number | undefined {
  const wanted = new Set([...source.headers.values()].map((header) => header.toLowerCase()));
  const ofTable = sheet.tables.find(
    ({ columns }) => columns.filter(({ name }) => wanted.has(name.toLowerCase())).length >= source.required.length,
  );
  if (ofTable !== undefined && ofTable.headerRows > 0) return ofTable.range.firstRow;
  let best: number | undefined;
  let most = 1;
  for (const row of sheet.cells.rowNumbers.subarray(0, sheet.cells.rowCount)) {
    if (row > HEADER_ROWS) break;
    const count = new Set(headersIn(sheet, row).filter((text) => wanted.has(text))).size;
    if (count > most) [best, most] = [row, count];
  }
  return best;
}

function headersIn(sheet: Sheet, row: number): readonly string[] {
  return Array.from({ length: HEADER_COLUMNS }, (_, index) => {
    const value = valueAt(sheet, row, index + 1);
    return typeof value === "string" ? value.trim().replace(/\s+/g, " ").toLowerCase() : "";
  });
}

/** The table's last row before its totals; without a table, the last row of the sheet. */
function lastRowOf({ tables, cells }: Sheet, headerRow: number): number {
  const table = tables.find(({ range, headerRows }) => headerRows > 0 && range.firstRow === headerRow);
  if (table !== undefined) return table.range.lastRow - table.totalsRows;
  return cells.rowNumbers[cells.rowCount - 1] ?? headerRow;
}
