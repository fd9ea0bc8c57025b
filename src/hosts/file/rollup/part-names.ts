import { readdir, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { WorkbookFileError } from "../../../xlsx/index.js";
import { brokenLink } from "../broken-link.js";
import { fileProblem } from "../file-problem.js";
import { removeAbandoned } from "../temporary-file.js";
import { requireOpen } from "../write-target.js";

/** The tables of a part, by the names of their files. */
export const PART_TABLES = {
  jobs: "jobs.parquet",
  outlets: "outlets.parquet",
  findings: "findings.parquet",
  leftOut: "left_out.parquet",
} as const;

/** Whether a folder holds a part, or what is left of one. */
export async function isPart(folder: string): Promise<boolean> {
  const names = await readdir(folder).catch(() => []);
  return isPartOf(names);
}

/** Whether these are the names of the files of a part. */
export function isPartOf(names: Iterable<string>): boolean {
  const own: ReadonlySet<string> = new Set([PART_TABLES.jobs, PART_TABLES.outlets]);
  return [...names].filter((name) => own.has(name)).length > 0;
}

/** Refuses, before any work is done, a folder for a part that may not be written to. */
export async function requireFreePart(folder: string, existing: "refuse" | "replace"): Promise<void> {
  const refused = (problem: string, advice: string) => new WorkbookFileError("not-writable", folder, problem, advice);
  const stats = await stat(folder).catch((cause: unknown) => {
    const isAbsent = (cause as NodeJS.ErrnoException).code === "ENOENT" && brokenLink(folder) === undefined;
    if (!isAbsent) throw fileProblem(folder, cause, "writing");
  });
  if (stats === undefined) return requireRoom(folder);
  if (!stats.isDirectory())
    throw refused(
      stats.isFile() ? "is a file, not a folder" : "is a named pipe or device, not a folder",
      "Choose another name.",
    );
  await requireRoom(folder);
  // What a process that was killed has left of a first part is nobody's file.
  await removeAbandoned(folder);
  const names = await readdir(folder);
  if (names.length === 0) return;
  if (!isPartOf(names)) throw refused("holds other files", "Name a folder of its own for the part.");
  if (existing === "refuse") throw refused("is there already", "Choose another name, or add --replace.");
}

/** Asks whether a folder, or the first there is above it, takes what is to be made in it. */
async function requireRoom(folder: string): Promise<void> {
  try {
    await requireOpen(folder);
  } catch (cause) {
    const isAbsent = (cause as NodeJS.ErrnoException).code === "ENOENT" && dirname(folder) !== folder;
    if (!isAbsent) throw fileProblem(folder, cause, "writing");
    await requireRoom(dirname(folder));
  }
}
