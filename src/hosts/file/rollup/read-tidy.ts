import { LATER_COLUMNS, type OutletRecord, outletOfTidy, TIDY_COLUMNS } from "../../../workbook/rollup/index.js";
import { WorkbookFileError } from "../../../xlsx/index.js";
import type { OpenedTable } from "./parquet-tables.js";

/** Says that a Parquet file is not what a roll-up writes. */
export function notOurs({ path }: OpenedTable, lack: string): WorkbookFileError {
  return new WorkbookFileError(
    "not-readable",
    path,
    `is not a table of a roll-up: ${lack}`,
    "Name the file or folder that a roll-up wrote, or write it anew.",
  );
}

/**
 * Goes through the outlets of a table, a workbook at a time; the rows of a workbook stand together.
 *
 * @throws {WorkbookFileError} When a column or a value is not as a roll-up writes it, naming row and column
 */
export async function* tidyOutlets(
  table: OpenedTable,
): AsyncGenerator<{ readonly file: string; readonly outlets: readonly OutletRecord[] }> {
  const missing = TIDY_COLUMNS.find(({ name }) => !table.columns.has(name) && !LATER_COLUMNS.has(name));
  if (missing !== undefined) throw notOurs(table, `it has no column ${missing.name}`);
  let ofFile: { readonly file: string; readonly outlets: OutletRecord[] } | undefined;
  let rowNumber = 0;
  for await (const row of table.rows()) {
    rowNumber += 1;
    const { file } = row;
    const { outlet, wrong } = outletOfTidy(row);
    if (typeof file !== "string") throw notOurs(table, `row ${rowNumber} names no file`);
    if (outlet === null) throw notOurs(table, `in row ${rowNumber} the column ${wrong}`);
    if (ofFile?.file !== file) {
      if (ofFile !== undefined) yield ofFile;
      ofFile = { file, outlets: [] };
    }
    ofFile.outlets.push(outlet);
  }
  if (ofFile !== undefined) yield ofFile;
}
