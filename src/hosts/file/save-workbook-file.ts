import { stat } from "node:fs/promises";
import { basename } from "node:path";
import { openWorkbook, WorkbookFileError } from "../../xlsx/index.js";
import { type FileIdentity, identityOf, looksUnchanged } from "./file-identity.js";
import { fileProblem } from "./file-problem.js";
import { findLockFile } from "./lock-files.js";
import { openRegularFile, readWhole } from "./open-regular-file.js";
import type { WorkbookFile } from "./open-workbook-file.js";
import { writeFileWhole } from "./write-file-whole.js";
import { writeTarget } from "./write-target.js";
import { zlibCodec } from "./zlib-codec.js";

/** A workbook as it was saved. */
export interface SavedWorkbookFile extends WorkbookFile {
  /** Other names of the same file, hard links in other folders, that still have the old content. */
  readonly namesWithOldContent: number;
}

/**
 * Saves a workbook over the file that it was opened from. Refused when the file has changed since, looks open in another
 * program or is write-protected. If anything fails, or the machine stops, the file is the old one or the new one, whole.
 *
 * @param file - The file as it was opened
 * @param bytes - Its new content, a workbook
 * @returns The file as it is now
 * @throws {WorkbookFileError} When it is not saved; the file is as it was
 */
export async function saveWorkbookFile(file: WorkbookFile, bytes: Uint8Array): Promise<SavedWorkbookFile> {
  const { path, identity } = file;
  try {
    await refuseLocked(path);
    const { mode } = await writeTarget(path);
    const now = await identityNow(path);
    if (now.sha256 !== identity.sha256 || now.inode !== identity.inode) throw changedOnDisk(path);
    const old = await writeFileWhole(path, bytes, {
      mode,
      existing: "replace",
      beforeReplacing: async () => {
        await refuseLocked(path);
        if (!(await looksUnchanged(path, now))) throw changedOnDisk(path);
      },
    });
    return { ...(await reopened(path, bytes)), namesWithOldContent: old };
  } catch (cause) {
    throw fileProblem(path, cause, "writing");
  }
}

/**
 * Saves a workbook under a name of its own.
 *
 * @param path - The new file
 * @param bytes - A workbook
 * @param existing - "refuse" to touch a file of that name, or "replace" it
 * @returns The new file
 * @throws {WorkbookFileError} When it is not saved; a file of that name is as it was
 */
export async function saveWorkbookCopy(
  path: string,
  bytes: Uint8Array,
  existing: "refuse" | "replace",
): Promise<SavedWorkbookFile> {
  try {
    const { path: target, isThere, mode } = await writeTarget(path);
    await refuseLocked(target);
    if (isThere && existing === "refuse") throw nameTaken(path);
    const old = await writeFileWhole(target, bytes, { mode, existing, beforeReplacing: () => refuseLocked(target) });
    return { ...(await reopened(target, bytes)), namesWithOldContent: old };
  } catch (cause) {
    const isTaken = (cause as NodeJS.ErrnoException).code === "EEXIST";
    throw fileProblem(path, isTaken ? nameTaken(path) : cause, "writing");
  }
}

async function identityNow(path: string): Promise<FileIdentity> {
  const opened = await openRegularFile(path, "a workbook file");
  try {
    return identityOf(await readWhole(opened), opened.stats);
  } finally {
    await opened.file.close();
  }
}

async function reopened(path: string, bytes: Uint8Array): Promise<WorkbookFile> {
  return {
    path,
    workbook: openWorkbook(bytes, basename(path), zlibCodec),
    identity: identityOf(bytes, await stat(path)),
  };
}

async function refuseLocked(path: string): Promise<void> {
  const lockFile = await findLockFile(path);
  if (lockFile === undefined) return;
  throw new WorkbookFileError(
    "open-elsewhere",
    path,
    "looks open in another program",
    `Close it there. If it is open nowhere, delete the lock file ${basename(lockFile)} beside it.`,
  );
}

function changedOnDisk(path: string): WorkbookFileError {
  const problem = "has changed on disk since it was opened, so it was not overwritten";
  return new WorkbookFileError("changed-on-disk", path, problem, "Open it again, or save under another name.");
}

function nameTaken(path: string): WorkbookFileError {
  return new WorkbookFileError("not-writable", path, "is there already", "Choose another name.");
}
