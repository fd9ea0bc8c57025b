import { stat } from "node:fs/promises";
import { asyncBufferFromFile, type FileMetaData, parquetMetadataAsync, parquetReadObjects } from "hyparquet";
import { fileWriter, parquetWriteRows } from "hyparquet-writer";
import type { TidyType } from "../../../workbook/rollup/index.js";
import { WorkbookFileError } from "../../../xlsx/index.js";
import { fileProblem } from "../file-problem.js";
import { requireRegular } from "../open-regular-file.js";
import { type FileToFill, fillFilesWhole } from "../write-file-whole.js";
import { writeTarget } from "../write-target.js";

/** One column of a table in a Parquet file. */
export interface TableColumn {
  readonly name: string;
  readonly type: TidyType | "whole64";
  readonly unit: string;
  readonly meaning: string;
}

/** A value as rows have it: a date as ISO 8601 spells it. */
export type TableValue = string | number | boolean | null;
export type TableRow = Readonly<Record<string, TableValue>>;

/** Rows that a writer or a reader of columns holds at a time. */
const ROW_GROUP = 20_000;

const PARQUET_TYPES = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  number: { type: "DOUBLE" },
  whole: { type: "INT32" },
  whole64: { type: "INT64" },
  boolean: { type: "BOOLEAN" },
  date: { type: "INT32", converted_type: "DATE" },
} as const satisfies Readonly<Record<TableColumn["type"], object>>;

function written(type: TableColumn["type"], value: TableValue): unknown {
  if (type === "date" && typeof value === "string") return new Date(`${value}T00:00:00Z`);
  if (type === "whole64" && typeof value === "number") return BigInt(Math.round(value));
  return value;
}

/** A table to be written as Parquet: columns typed, missing values null, each column's meaning with it. */
export interface TableToWrite {
  readonly path: string;
  readonly name: string;
  readonly columns: readonly TableColumn[];
  readonly rows: AsyncIterable<TableRow> | Iterable<TableRow>;
  /** Texts that belong to the file as a whole, by name. */
  readonly notes: Readonly<Record<string, string>>;
}

/**
 * Writes tables as Parquet; where one cannot be written, none is.
 *
 * @throws {WorkbookFileError} When they cannot be written
 */
export async function writeTables(tables: readonly TableToWrite[], existing: "refuse" | "replace"): Promise<void> {
  await fillAll(
    tables.map((table) => ({ path: table.path, write: (temporary: string) => writeRows(temporary, table) })),
    existing,
  );
}

async function writeRows(temporary: string, { name, columns, rows, notes }: TableToWrite): Promise<void> {
  await parquetWriteRows({
    writer: fileWriter(temporary),
    rows: parquetRows(columns, rows),
    columns: columns.map((column) => ({ name: column.name })),
    schema: [
      { name, num_children: columns.length },
      ...columns.map((column) => ({
        name: column.name,
        repetition_type: "OPTIONAL" as const,
        ...PARQUET_TYPES[column.type],
      })),
    ],
    rowGroupSize: ROW_GROUP,
    kvMetadata: [
      ...columns.map(({ name: key, unit, meaning }) => ({
        key,
        value: unit === "" ? meaning : `${meaning} [${unit}]`,
      })),
      ...Object.entries(notes).map(([key, value]) => ({ key, value })),
    ],
    createdBy: "Vanesheet",
  });
}

async function* parquetRows(
  columns: readonly TableColumn[],
  rows: AsyncIterable<TableRow> | Iterable<TableRow>,
): AsyncGenerator<Readonly<Record<string, unknown>>> {
  for await (const row of rows) {
    yield Object.fromEntries(columns.map(({ name, type }) => [name, written(type, row[name] ?? null)]));
  }
}

/** A table that was opened. */
export interface OpenedTable {
  readonly path: string;
  readonly columns: ReadonlySet<string>;
  readonly notes: Readonly<Record<string, string>>;
  readonly rows: () => AsyncGenerator<TableRow>;
}

/**
 * Opens a Parquet file; its rows are read a group at a time.
 *
 * @throws {WorkbookFileError} When it cannot be read or is no Parquet file
 */
export async function openTable(path: string): Promise<OpenedTable> {
  try {
    requireRegular(await stat(path), path, "a Parquet file");
    const file = await asyncBufferFromFile(path);
    const metadata = await asParquet(path, () => parquetMetadataAsync(file));
    const [, ...leaves] = metadata.schema;
    const notes = Object.fromEntries((metadata.key_value_metadata ?? []).map(({ key, value }) => [key, value ?? ""]));
    return {
      path,
      columns: new Set(leaves.map(({ name }) => name)),
      notes,
      rows: () => rowsOf(path, file, metadata),
    };
  } catch (cause) {
    throw fileProblem(path, cause, "reading");
  }
}

async function* rowsOf(
  path: string,
  file: Awaited<ReturnType<typeof asyncBufferFromFile>>,
  metadata: FileMetaData,
): AsyncGenerator<TableRow> {
  let rowStart = 0;
  for (const group of metadata.row_groups) {
    const rowEnd = rowStart + Number(group.num_rows);
    const from = rowStart;
    const rows = await asParquet(path, () => parquetReadObjects({ file, metadata, rowStart: from, rowEnd }));
    for (const row of rows) yield Object.fromEntries(Object.entries(row).map(([name, value]) => [name, read(value)]));
    rowStart = rowEnd;
  }
}

function read(value: unknown): TableValue {
  if (value instanceof Date) return value.toISOString().slice(0, 10);
  if (typeof value === "bigint") return Number(value);
  return typeof value === "string" || typeof value === "number" || typeof value === "boolean" ? value : null;
}

/** What the reader throws tells of bytes that are no Parquet, unless the disk failed. */
async function asParquet<T>(path: string, reading: () => Promise<T>): Promise<T> {
  try {
    return await reading();
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== undefined) throw cause;
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new WorkbookFileError("not-readable", path, `cannot be read as Parquet (${reason})`, "Write it anew.", {
      cause,
    });
  }
}

/** A file, and what writes it under a temporary name. */
export interface FileToWrite {
  readonly path: string;
  readonly write: (temporary: string) => Promise<void>;
}

/** Fills files that belong together and take their places whole, when all of them are filled. */
export async function fillAll(files: readonly FileToWrite[], existing: "refuse" | "replace"): Promise<void> {
  const toFill: FileToFill[] = [];
  for (const { path, write } of files) {
    const { path: target, mode } = await writeTarget(path);
    const fill = async (_: unknown, temporary: string) => {
      await write(temporary).catch((cause: unknown) => Promise.reject(fileProblem(path, cause, "writing")));
    };
    toFill.push({ path: target, options: { mode, existing, beforeReplacing: async () => undefined }, fill });
  }
  try {
    await fillFilesWhole(toFill);
  } catch (cause) {
    throw fileProblem(files[0]?.path ?? "", cause, "writing");
  }
}
