import { readFile, stat } from "node:fs/promises";
import { basename, extname } from "node:path";
import Papa from "papaparse";
import { type NameRule, nameRules } from "../../../workbook/rollup/index.js";
import { cellsOf, readSheet } from "../../../xlsx/index.js";
import { fileProblem } from "../file-problem.js";
import { requireRegular } from "../open-regular-file.js";
import { openWorkbookFile } from "../open-workbook-file.js";

/**
 * Reads the manager's table of names, from the first sheet of a workbook or from CSV.
 *
 * @throws {WorkbookFileError} When the file cannot be read
 * @throws {HostError} When a row cannot be taken
 */
export async function readNames(path: string): Promise<readonly NameRule[]> {
  const rows = extname(path).toLowerCase() === ".csv" ? await csvRows(path) : await sheetRows(path);
  return nameRules(rows, basename(path));
}

async function csvRows(path: string): Promise<readonly (readonly string[])[]> {
  try {
    requireRegular(await stat(path), path, "a table of names");
    const text = await readFile(path, "utf8");
    return Papa.parse(text.replace(/^\uFEFF/, ""), { delimitersToGuess: [",", ";", "\t"] }).data;
  } catch (cause) {
    throw fileProblem(path, cause, "reading");
  }
}

async function sheetRows(path: string): Promise<readonly (readonly string[])[]> {
  const { workbook } = await openWorkbookFile(path);
  const [first] = workbook.sheets;
  if (first === undefined) return [];
  const rows: string[][] = [];
  for (const { row, column, value } of cellsOf(readSheet(workbook, first.name))) {
    while (rows.length < row) rows.push([]);
    const cells = rows[row - 1] ?? [];
    while (cells.length < column) cells.push("");
    cells[column - 1] = typeof value === "object" ? "" : String(value);
  }
  return rows;
}
