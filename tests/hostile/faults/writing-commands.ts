import { cpSync, linkSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { plainWorkbook } from "../../xlsx/plain-workbook.js";

/** One call of the command line that writes, at whose every step something is to go wrong. */
export interface WritingCommand {
  readonly title: string;
  readonly args: readonly string[];
  /** Lays out an empty folder; `run` runs the command line in it, undisturbed. */
  readonly prepare: (folder: string, run: Run) => Promise<void>;
  /**
   * The call that follows a failure: the same command, which has to bring everything in order, or another that writes
   * into the same folder, which has to clear it up.
   */
  readonly again: readonly string[];
  /** Whether it writes several files, each whole, so that a failure may leave some new and some old. */
  readonly isSeveral?: boolean;
  /** Whether the disk knows no hard links. */
  readonly hasNoLinks?: boolean;
}

export type Run = (...args: readonly string[]) => Promise<void>;

/** The same folder, whether this file runs as it is written or compiled, in build/tests/hostile/faults. */
const TEMPLATES = [
  resolve(import.meta.dirname, "../../../templates"),
  resolve(import.meta.dirname, "../../../../templates"),
];

function template(name: string): Buffer {
  for (const folder of TEMPLATES) {
    try {
      return readFileSync(join(folder, name));
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "ENOENT") throw cause;
    }
  }
  throw new Error(`There is no template ${name}.`);
}

/** An outlet without its result, so that calculating changes the file. */
async function job(folder: string): Promise<void> {
  const formula = "<f>VANE.AIRFLOW.FACE(A1,B1,C1:D1,0.75,COUNT(C1:D1))</f>";
  const cells = [14, 6, 400, 420].map((value, index) => `<c r="${"ABCD"[index]}1"><v>${value}</v></c>`);
  writeFileSync(join(folder, "job.xlsx"), plainWorkbook(`<row r="1">${cells.join("")}<c r="E1">${formula}</c></row>`));
}

/** One thread reads, so that the same call is the nth of every run. */
const ROLL_UP = [
  "rollup",
  "--workers",
  "1",
  "jobs",
  "-o",
  "sum.xlsx",
  "--csv",
  "sum.csv",
  "--parquet",
  "sum.parquet",
  "--part",
  "a.part",
];

// What makes these is loaded for a command that needs it; it takes longer than many a command.

async function ownSheet(): Promise<Uint8Array> {
  const { ownWorkbook, sheetInOrder } = await import("../../workbook/takeover/mistakes.js");
  return ownWorkbook(sheetInOrder());
}

async function jobs(folder: string, files: number): Promise<void> {
  const { makeJobs } = await import("../../../src/tools/rollup/make-jobs.js");
  makeJobs(join(folder, "jobs"), new Uint8Array(template("job-summary.xlsx")), { files, rows: 6, badEvery: 0 });
}

export const writingCommands: readonly WritingCommand[] = [
  {
    title: "new",
    args: ["new", "room-balance", "new.xlsx"],
    again: ["new", "room-balance", "another.xlsx"],
    prepare: async () => undefined,
  },
  {
    title: "new, on a disk without hard links",
    args: ["new", "room-balance", "new.xlsx"],
    again: ["new", "room-balance", "another.xlsx"],
    hasNoLinks: true,
    prepare: async () => undefined,
  },
  {
    title: "calc in place",
    args: ["calc", "job.xlsx"],
    again: ["handoff", "job.xlsx", "-o", "later.xlsx"],
    prepare: job,
  },
  {
    title: "calc through a link, of a file with three names",
    args: ["calc", "link.xlsx"],
    again: ["handoff", "job.xlsx", "-o", "later.xlsx"],
    isSeveral: true,
    prepare: async (folder) => {
      await job(folder);
      linkSync(join(folder, "job.xlsx"), join(folder, "second.xlsx"));
      linkSync(join(folder, "job.xlsx"), join(folder, "third.xlsx"));
      symlinkSync("job.xlsx", join(folder, "link.xlsx"));
    },
  },
  {
    title: "handoff",
    args: ["handoff", "job.xlsx", "-o", "out.xlsx"],
    again: ["handoff", "job.xlsx", "-o", "out.xlsx", "--replace"],
    prepare: job,
  },
  {
    title: "handoff over an earlier copy",
    args: ["handoff", "job.xlsx", "-o", "out.xlsx", "--replace"],
    again: ["handoff", "job.xlsx", "-o", "out.xlsx", "--replace"],
    prepare: async (folder) => {
      await job(folder);
      writeFileSync(join(folder, "out.xlsx"), template("room-balance.xlsx"));
    },
  },
  {
    title: "columns --keep",
    args: ["columns", "own.xlsx", "--keep"],
    again: ["handoff", "own.xlsx", "-o", "later.xlsx"],
    prepare: async (folder) => writeFileSync(join(folder, "own.xlsx"), await ownSheet()),
  },
  {
    title: "columns --like, in a folder of workbooks",
    args: ["columns", "--like", "own.xlsx", "others"],
    again: ["handoff", "others/a.xlsx", "-o", "others/later.xlsx"],
    isSeveral: true,
    prepare: async (folder, run) => {
      mkdirSync(join(folder, "others"));
      const bytes = await ownSheet();
      for (const name of ["own.xlsx", "others/a.xlsx", "others/b.xlsx"]) writeFileSync(join(folder, name), bytes);
      await run("columns", "own.xlsx", "--keep");
    },
  },
  {
    title: "convert --apply",
    args: ["convert", "own.xlsx", "--apply"],
    again: ["handoff", "own.xlsx", "-o", "later.xlsx"],
    prepare: async (folder, run) => {
      writeFileSync(join(folder, "own.xlsx"), await ownSheet());
      await run("columns", "own.xlsx", "--keep");
    },
  },
  {
    title: "rollup with its tables and a part",
    args: ROLL_UP,
    again: [...ROLL_UP, "--replace"],
    isSeveral: true,
    prepare: async (folder) => jobs(folder, 3),
  },
  {
    title: "rollup over an earlier one, of whose jobs most are gone",
    args: [...ROLL_UP, "--replace"],
    again: [...ROLL_UP, "--replace"],
    isSeveral: true,
    prepare: async (folder, run) => {
      await jobs(folder, 4);
      await run(...ROLL_UP);
      rmSync(join(folder, "jobs"), { recursive: true });
      await jobs(folder, 2);
      cpSync(join(folder, "sum.xlsx"), join(folder, "jobs", "a summary.xlsx"));
    },
  },
];
