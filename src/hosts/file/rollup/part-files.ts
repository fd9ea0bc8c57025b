import { randomUUID } from "node:crypto";
import { mkdir, rmdir, stat } from "node:fs/promises";
import { join } from "node:path";
import type { Finding } from "../../../workbook/finding.js";
import {
  FINDING_COLUMNS,
  JOB_COLUMNS,
  type JobFigures,
  jobFigures,
  jobKey,
  LEFT_OUT_COLUMNS,
  type OutletRecord,
  type PartColumn,
  partJob,
  partLeftOut,
  TIDY_COLUMNS,
} from "../../../workbook/rollup/index.js";
import { fileProblem } from "../file-problem.js";
import { type OpenedTable, openTable, type TableColumn, type TableRow, writeTables } from "./parquet-tables.js";
import { PART_TABLES } from "./part-names.js";
import { notOurs, tidyOutlets } from "./read-tidy.js";

/*
 * A part is the roll-up of one machine as a folder of four tables. It keeps what every workbook gave, the older ones of a
 * job too, so that whoever puts parts together chooses the newest among all.
 */

/** Of the form of the tables; a part of another form is refused. */
const FORMAT = "1";
const NOTE = { part: "part", format: "format", workbooks: "workbooks" } as const;

const PART_COLUMN: TableColumn = {
  name: "part",
  type: "text",
  unit: "",
  meaning: "The run that wrote the part: the same in its four tables.",
};

const JOB_KEY_COLUMN: TableColumn = {
  name: "job_key",
  type: "text",
  unit: "",
  meaning: "As in the table of jobs.",
};

/** What a part is made of. */
export interface PartContent {
  /** How many workbooks were found. */
  readonly workbooks: number;
  readonly figures: readonly JobFigures[];
  /** Those that count. */
  readonly counting: ReadonlySet<JobFigures>;
  readonly findings: readonly Finding[];
  readonly everyOutlet: () => AsyncGenerator<{ readonly file: string; readonly outlets: readonly OutletRecord[] }>;
}

/**
 * Writes a part: its tables take their places when all are written, so that a full disk leaves the earlier part.
 *
 * @throws {WorkbookFileError} When it cannot be written
 */
export async function writePart(folder: string, content: PartContent): Promise<void> {
  const part = randomUUID();
  const notes = { [NOTE.part]: part, [NOTE.format]: FORMAT, [NOTE.workbooks]: String(content.workbooks) };
  const table = <T>(name: keyof typeof PART_TABLES, columns: readonly PartColumn<T>[], things: readonly T[]) => ({
    path: join(folder, PART_TABLES[name]),
    name,
    columns: [PART_COLUMN, ...columns],
    rows: things.map(
      (thing): TableRow => ({
        part,
        ...Object.fromEntries(columns.map((column) => [column.name, column.of(thing)])),
      }),
    ),
    notes,
  });
  const jobs = content.figures.map((figures) => partJob(figures, content.counting.has(figures)));
  await inFolder(folder, () =>
    writeTables(
      [
        table("jobs", JOB_COLUMNS, jobs),
        table("findings", FINDING_COLUMNS, content.findings),
        table("leftOut", LEFT_OUT_COLUMNS, partLeftOut(content.findings)),
        {
          path: join(folder, PART_TABLES.outlets),
          name: "outlets",
          columns: [PART_COLUMN, JOB_KEY_COLUMN, ...TIDY_COLUMNS],
          rows: outletRows(part, content),
          notes,
        },
      ],
      "replace",
    ),
  );
}

/** Does what writes into a folder, which is made where it is not there, and stays only where that is done. */
async function inFolder(folder: string, write: () => Promise<void>): Promise<void> {
  const isNew = (await stat(folder).catch(() => undefined)) === undefined;
  try {
    await mkdir(folder, { recursive: true });
    await write();
  } catch (cause) {
    // Refused by the system where anything is in it.
    if (isNew) await rmdir(folder).catch(() => undefined);
    throw fileProblem(folder, cause, "writing");
  }
}

async function* outletRows(part: string, { figures, everyOutlet }: PartContent): AsyncGenerator<TableRow> {
  const keys = new Map(figures.map((job) => [`${job.file}\n${job.jobNumber.toLowerCase()}`, jobKey(job)]));
  for await (const { file, outlets } of everyOutlet()) {
    for (const outlet of outlets) {
      yield {
        part,
        job_key: keys.get(`${file}\n${outlet.jobNumber.toLowerCase()}`) ?? null,
        ...Object.fromEntries(TIDY_COLUMNS.map((column) => [column.name, column.of(outlet, file)])),
      };
    }
  }
}

/** A part as it was read; its outlets are gone through again when they are wanted. */
export interface ReadPart {
  readonly folder: string;
  readonly workbooks: number;
  readonly figures: readonly JobFigures[];
  readonly findings: readonly Finding[];
  readonly everyOutlet: PartContent["everyOutlet"];
}

/**
 * Reads a part; the figures of its jobs are made of its outlets anew.
 *
 * @throws {WorkbookFileError} When a table is not there, is damaged, or is of another run than the others
 */
export async function readPart(folder: string): Promise<ReadPart> {
  const open = (table: keyof typeof PART_TABLES) => openTable(join(folder, PART_TABLES[table]));
  const [jobs, outlets, findings] = await Promise.all([open("jobs"), open("outlets"), open("findings")]);
  const part = jobs.notes[NOTE.part];
  for (const table of [jobs, outlets, findings]) {
    if (table.notes[NOTE.format] !== FORMAT) throw notOurs(table, "it is of another version, or of no part");
    if (table.notes[NOTE.part] !== part) throw notOurs(table, "it is of another run than the tables beside it");
  }
  const files = new Map<string, { readonly modifiedMs: number; readonly contentHash: string }>();
  for await (const row of rowsWith(jobs, ["file", "saved_ms", "sha256"])) {
    files.set(String(row["file"]), { modifiedMs: Number(row["saved_ms"]), contentHash: String(row["sha256"] ?? "") });
  }
  const figures: JobFigures[] = [];
  for await (const { file, outlets: ofFile } of tidyOutlets(outlets)) {
    const about = files.get(file);
    if (about === undefined) throw notOurs(outlets, `${file} is not among its jobs`);
    figures.push(...jobFigures({ file, ...about }, ofFile));
    files.delete(file);
  }
  const [missing] = files.keys();
  if (missing !== undefined) throw notOurs(outlets, `the outlets of ${missing} are not there`);
  const found: Finding[] = [];
  for await (const row of rowsWith(
    findings,
    FINDING_COLUMNS.map(({ name }) => name),
  )) {
    found.push(findingOfRow(row));
  }
  const workbooks = Number(jobs.notes[NOTE.workbooks]);
  return { folder, workbooks, figures, findings: found, everyOutlet: () => tidyOutlets(outlets) };
}

async function* rowsWith(table: OpenedTable, columns: readonly string[]): AsyncGenerator<TableRow> {
  const missing = columns.find((name) => !table.columns.has(name));
  if (missing !== undefined) throw notOurs(table, `it has no column ${missing}`);
  yield* table.rows();
}

function findingOfRow(row: TableRow): Finding {
  const text = (name: string) => String(row[name] ?? "");
  return {
    kind: text("kind") as Finding["kind"],
    severity: text("severity") === "warning" ? "warning" : "error",
    leftOut: (["workbook", "list", "outlet"] as const).find((what) => what === text("left_out")) ?? "nothing",
    file: text("file"),
    sheet: text("sheet"),
    cell: text("cell"),
    problem: text("problem"),
    action: text("action"),
  };
}
