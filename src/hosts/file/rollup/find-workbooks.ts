import type { Dirent } from "node:fs";
import { readdir, realpath, stat } from "node:fs/promises";
import { basename, dirname, extname, join } from "node:path";
import { type Finding, findingOf } from "../../../workbook/finding.js";
import { notOpened } from "../../../workbook/rollup/index.js";
import { fileProblem } from "../file-problem.js";
import { lockFileNames } from "../lock-files.js";
import { requireRegular } from "../open-regular-file.js";
import { isPartOf } from "./part-names.js";

/** A workbook that was found, not opened yet. */
export interface FoundWorkbook {
  /** Where it really lies, links followed. */
  readonly path: string;
  /** As it is called in results: the folder as it was named, and the way from there. */
  readonly file: string;
  readonly bytes: number;
  readonly modifiedMs: number;
  /** Whether another program seems to have it open. */
  readonly isOpenElsewhere: boolean;
}

export interface FoundWorkbooks {
  readonly value: readonly FoundWorkbook[];
  readonly findings: readonly Finding[];
}

const WORKBOOK_ENDINGS: ReadonlySet<string> = new Set([".xlsx", ".xlsm"]);
/** Spreadsheets of other kinds, which somebody may miss in the results. */
const OTHER_ENDINGS: ReadonlySet<string> = new Set([".xls", ".xlsb", ".ods", ".xltx", ".xltm"]);

/**
 * Finds the workbooks in folders and the folders within them, in the order of their names.
 *
 * Hidden files and folders and the lock files of spreadsheet programs are passed over; a link to a folder is not
 * followed. A file may be named as well as a folder.
 *
 * @param places - Folders and files, as a person names them
 * @param passedOver - Real paths of files and folders that are no jobs, such as the summary itself
 */
export async function findWorkbooks(
  places: readonly string[],
  passedOver: ReadonlySet<string>,
): Promise<FoundWorkbooks> {
  const found: FoundWorkbooks[] = [];
  for (const place of places) found.push(await lookAt(place, passedOver));
  const byPath = new Map(found.flatMap(({ value }) => value.map((workbook) => [workbook.path, workbook] as const)));
  for (const path of passedOver) byPath.delete(path);
  return {
    value: [...byPath.values()].sort((one, other) => (one.file < other.file ? -1 : 1)),
    findings: found.flatMap(({ findings }) => findings),
  };
}

async function lookAt(place: string, passedOver: ReadonlySet<string>): Promise<FoundWorkbooks> {
  try {
    if ((await stat(place)).isDirectory()) return await lookInto(place, passedOver);
    const names = new Set(await readdir(dirname(place)));
    return { value: [await foundAt(place, await realpath(place), names)], findings: [] };
  } catch (cause) {
    return { value: [], findings: [notOpened(place, fileProblem(place, cause, "reading"))] };
  }
}

async function lookInto(folder: string, passedOver: ReadonlySet<string>): Promise<FoundWorkbooks> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = new Set(entries.map(({ name }) => name));
  const visible = entries.filter(({ name }) => !name.startsWith(".") && !name.startsWith("~$"));
  const inOrder = visible.sort((one, other) => (one.name < other.name ? -1 : 1));
  const real = await realpath(folder);
  const found = await Promise.all(inOrder.map((entry) => lookAtEntry({ folder, real }, entry, names, passedOver)));
  const isOther = isPartOf(names) && !passedOver.has(real);
  const parts = isOther ? [partWithin(folder)] : [];
  return {
    value: found.flatMap(({ value }) => value),
    findings: [...parts, ...found.flatMap(({ findings }) => findings)],
  };
}

async function lookAtEntry(
  { folder, real }: { readonly folder: string; readonly real: string },
  entry: Dirent,
  names: ReadonlySet<string>,
  passedOver: ReadonlySet<string>,
): Promise<FoundWorkbooks> {
  const path = join(folder, entry.name);
  try {
    if (entry.isDirectory()) return await lookInto(path, passedOver);
    const ending = extname(entry.name).toLowerCase();
    if (OTHER_ENDINGS.has(ending)) return { value: [], findings: [otherKind(path, ending)] };
    if (!WORKBOOK_ENDINGS.has(ending)) return { value: [], findings: [] };
    // Where anything but a file leads is asked of the disk.
    const realFile = entry.isFile() ? join(real, entry.name) : await realpath(path);
    return { value: [await foundAt(path, realFile, names)], findings: [] };
  } catch (cause) {
    return { value: [], findings: [notOpened(path, fileProblem(path, cause, "reading"))] };
  }
}

async function foundAt(file: string, path: string, names: ReadonlySet<string>): Promise<FoundWorkbook> {
  const stats = await stat(path);
  requireRegular(stats, file, "a workbook file");
  const { size, mtimeMs } = stats;
  const isOpenElsewhere = lockFileNames(basename(file)).some((name) => names.has(name));
  return { path, file, bytes: size, modifiedMs: mtimeMs, isOpenElsewhere };
}

/** It may be the one that an earlier run wrote, whose jobs may be gone since. */
function partWithin(folder: string): Finding {
  const problem = "It holds a part of a roll-up, which is not read.";
  return findingOf(folder, "noted", "nothing", problem, "Name its folder as well if it is to count.");
}

function otherKind(file: string, ending: string): Finding {
  const problem = `A file that ends in ${ending} is not read.`;
  return findingOf(file, "not-opened", "workbook", problem, "Save it as .xlsx if it is a job.");
}
