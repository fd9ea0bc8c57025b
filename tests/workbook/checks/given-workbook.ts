import { type Cell, type WriteSheet, writeXlsx } from "hucre/xlsx";
import { calculateXlsx } from "../../../src/engine/index.js";
import { checkedFile, checkedHost, checkWorkbook, type Finding, storedFormula } from "../../../src/workbook/index.js";
import { place } from "../../../src/workbook/plan-file/index.js";
import { openWorkbook, type Workbook } from "../../../src/xlsx/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";

/** What a person typed into one sheet, by address; a text that begins with "=" is a formula. */
export type GivenCells = Readonly<Record<string, number | string | boolean>>;

/** Sheets by name. */
export type GivenSheets = Readonly<Record<string, GivenCells>>;

/** A table to lay over cells: its name and its range with the header. */
export interface GivenTable {
  readonly name: string;
  readonly range: string;
  readonly columns: readonly string[];
}

/** Writes sheets as a file in which nothing was calculated yet. */
export async function fileOf(
  sheets: GivenSheets,
  names: Readonly<Record<string, string>> = {},
  tables: readonly GivenTable[] = [],
): Promise<Workbook> {
  const written = Object.entries(sheets).map(([name, cells], index): WriteSheet => {
    const content = Object.entries(cells).map(([at, value]): [string, Partial<Cell>] => {
      const { row, col } = place(at);
      const isFormula = typeof value === "string" && value.startsWith("=");
      return [`${row},${col}`, isFormula ? { formula: storedFormula(value) } : { value }];
    });
    const own = index === 0 ? tables : [];
    return {
      name,
      cells: new Map(content),
      tables: own.map(({ columns, ...table }) => ({ ...table, columns: columns.map((column) => ({ name: column })) })),
    };
  });
  const bytes = await writeXlsx({
    sheets: written,
    namedRanges: Object.entries(names).map(([name, range]) => ({ name, range })),
  });
  return openWorkbook(bytes, "given.xlsx");
}

/** Finds what is wrong in a file, calculated as the command line does it. */
export async function foundInFile(
  sheets: GivenSheets,
  names: Readonly<Record<string, string>> = {},
  tables: readonly GivenTable[] = [],
): Promise<readonly Finding[]> {
  const workbook = await fileOf(sheets, names, tables);
  return checkWorkbook(checkedFile(workbook, calculateXlsx(workbook))).findings;
}

/** Finds what is wrong in the same sheets open in the page. */
export async function foundInPage(
  sheets: GivenSheets,
  names: Readonly<Record<string, string>> = {},
): Promise<readonly Finding[]> {
  const given = { sheets: Object.entries(sheets).map(([name, cells]) => ({ name, cells })), names };
  return checkWorkbook(await checkedHost(pageHostOver(given))).findings;
}
