import { createWriteStream } from "node:fs";
import { realpath, stat } from "node:fs/promises";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { fileWriter, parquetWriteRows } from "hyparquet-writer";
import Papa from "papaparse";
import { TIDY_COLUMNS, type TidyColumn } from "../../../workbook/rollup/index.js";
import { fileProblem } from "../file-problem.js";
import { requireRegular } from "../open-regular-file.js";
import { fillFileWhole } from "../write-file-whole.js";
import type { RolledUpFiles } from "./roll-up-files.js";

type Outlets = ReturnType<RolledUpFiles["outlets"]>;

/** Rows that the writer of columns holds at a time. */
const ROW_GROUP = 20_000;

/**
 * Writes a row an outlet as CSV: UTF-8 with a byte order mark, so that spreadsheet programs read it as such. A text that
 * begins like a formula gets an apostrophe, so that none is ever calculated.
 */
export async function writeCsv(path: string, outlets: Outlets, existing: "refuse" | "replace"): Promise<void> {
  await fill(path, existing, async (temporary) => {
    await pipeline(Readable.from(csvLines(outlets)), createWriteStream(temporary));
  });
}

const BYTE_ORDER_MARK = "\uFEFF";

async function* csvLines(outlets: Outlets): AsyncGenerator<string> {
  yield BYTE_ORDER_MARK + csvLine(TIDY_COLUMNS.map(({ name }) => name));
  for await (const { file, outlet } of outlets) yield csvLine(TIDY_COLUMNS.map((column) => column.of(outlet, file)));
}

function csvLine(fields: readonly (string | number | boolean | null)[]): string {
  return `${Papa.unparse([[...fields]], { escapeFormulae: true })}\n`;
}

/** Writes a row an outlet as Parquet, its columns typed, missing values null. */
export async function writeParquet(path: string, outlets: Outlets, existing: "refuse" | "replace"): Promise<void> {
  await fill(path, existing, async (temporary) => {
    await parquetWriteRows({
      writer: fileWriter(temporary),
      rows: parquetRows(outlets),
      columns: TIDY_COLUMNS.map(({ name }) => ({ name })),
      schema: [
        { name: "outlets", num_children: TIDY_COLUMNS.length },
        ...TIDY_COLUMNS.map((column) => ({
          name: column.name,
          repetition_type: "OPTIONAL" as const,
          ...PARQUET_TYPES[column.type],
        })),
      ],
      rowGroupSize: ROW_GROUP,
      kvMetadata: TIDY_COLUMNS.map(({ name, unit, meaning }) => ({
        key: name,
        value: unit === "" ? meaning : `${meaning} [${unit}]`,
      })),
      createdBy: "Vanesheet",
    });
  });
}

const PARQUET_TYPES = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  number: { type: "DOUBLE" },
  whole: { type: "INT32" },
  boolean: { type: "BOOLEAN" },
  date: { type: "INT32", converted_type: "DATE" },
} as const satisfies Readonly<Record<TidyColumn["type"], object>>;

async function* parquetRows(outlets: Outlets): AsyncGenerator<Readonly<Record<string, unknown>>> {
  for await (const { file, outlet } of outlets) {
    yield Object.fromEntries(
      TIDY_COLUMNS.map((column) => {
        const value = column.of(outlet, file);
        return [
          column.name,
          column.type === "date" && typeof value === "string" ? new Date(`${value}T00:00:00Z`) : value,
        ];
      }),
    );
  }
}

const NEW_FILE_MODE = 0o666;

async function fill(
  path: string,
  existing: "refuse" | "replace",
  write: (temporary: string) => Promise<void>,
): Promise<void> {
  try {
    const target = await realpath(path).catch(() => path);
    const before = await stat(target).catch(() => undefined);
    if (before !== undefined) requireRegular(before, path, "a file");
    const mode = NEW_FILE_MODE & ~process.umask();
    await fillFileWhole(target, { mode, existing, beforeReplacing: async () => undefined }, (_, temporary) =>
      write(temporary),
    );
  } catch (cause) {
    throw fileProblem(path, cause, "writing");
  }
}
