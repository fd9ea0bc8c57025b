import { createWriteStream } from "node:fs";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import Papa from "papaparse";
import { type EarlierFinding, TIDY_COLUMNS } from "../../../workbook/rollup/index.js";
import { fillAll, type TableRow, writeTables } from "./parquet-tables.js";
import type { RolledUpFiles } from "./roll-up-files.js";

type Outlets = ReturnType<RolledUpFiles["outlets"]>;

/** The note of a Parquet file of outlets in which a later run finds what was found wanting. */
export const FINDINGS_NOTE = "findings of the roll-up";

/**
 * Writes a row an outlet as CSV: UTF-8 with a byte order mark, so that spreadsheet programs read it as such. A text that
 * begins like a formula gets an apostrophe, so that none is ever calculated.
 */
export async function writeCsv(path: string, outlets: Outlets, existing: "refuse" | "replace"): Promise<void> {
  const write = (temporary: string) => pipeline(Readable.from(csvLines(outlets)), createWriteStream(temporary));
  await fillAll([{ path, write }], existing);
}

const BYTE_ORDER_MARK = "\uFEFF";

async function* csvLines(outlets: Outlets): AsyncGenerator<string> {
  yield BYTE_ORDER_MARK + csvLine(TIDY_COLUMNS.map(({ name }) => name));
  for await (const { file, outlet } of outlets) yield csvLine(TIDY_COLUMNS.map((column) => column.of(outlet, file)));
}

function csvLine(fields: readonly (string | number | boolean | null)[]): string {
  return `${Papa.unparse([[...fields]], { escapeFormulae: true })}\n`;
}

/** Writes a row an outlet as Parquet; what was found wanting goes along, so that a later run can compare itself. */
export async function writeParquet(
  path: string,
  outlets: Outlets,
  findings: readonly EarlierFinding[],
  existing: "refuse" | "replace",
): Promise<void> {
  const notes = { [FINDINGS_NOTE]: JSON.stringify(findings) };
  await writeTables([{ path, name: "outlets", columns: TIDY_COLUMNS, rows: tidyRows(outlets), notes }], existing);
}

async function* tidyRows(outlets: Outlets): AsyncGenerator<TableRow> {
  for await (const { file, outlet } of outlets) {
    yield Object.fromEntries(TIDY_COLUMNS.map((column) => [column.name, column.of(outlet, file)]));
  }
}
