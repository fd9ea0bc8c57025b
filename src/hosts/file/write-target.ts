import { constants } from "node:fs";
import { access, lstat, realpath, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { WorkbookFileError } from "../../xlsx/index.js";
import { brokenLinkProblem, fileProblem } from "./file-problem.js";
import { requireRegular } from "./open-regular-file.js";

const PERMISSION_BITS = 0o7777;
const WRITE_BITS = 0o222;
/** Permissions of a new file before the process's own mask. */
const NEW_FILE_MODE = 0o666;

/** Where a file that a person names really is to be written. */
export interface WriteTarget {
  readonly path: string;
  readonly isThere: boolean;
  /** The permissions that it has or is to have. */
  readonly mode: number;
}

/**
 * Follows the name under which a file is to be written, and refuses what is no place for one: a folder, a pipe, a link that
 * leads to nothing, a folder that is not there or takes no file, a name that is too long, a file that is protected.
 *
 * @throws {WorkbookFileError} When no file can be written there
 */
export async function writeTarget(path: string): Promise<WriteTarget> {
  try {
    const named = await lstat(path).catch(undefinedWhereMissing);
    if (named === undefined) {
      await requireFolder(path);
      return { path, isThere: false, mode: NEW_FILE_MODE & ~process.umask() };
    }
    const target = await realpath(path);
    const before = await stat(target);
    if (before.isDirectory()) {
      throw new WorkbookFileError("not-writable", path, "is a folder", "Give the file a name of its own.");
    }
    requireRegular(before, path, "a file");
    if ((before.mode & WRITE_BITS) === 0 || !(await isOpenToUs(target))) throw writeProtected(path);
    await requireOpen(dirname(target));
    return { path: target, isThere: true, mode: before.mode & PERMISSION_BITS };
  } catch (cause) {
    throw fileProblem(path, cause, "writing");
  }
}

function writeProtected(path: string): WorkbookFileError {
  const advice = "Take the protection off in the file's properties, or save under another name.";
  return new WorkbookFileError("not-writable", path, "is write-protected", advice);
}

/** Whether a file may be changed: root may change those of which only the permissions say that they are protected. */
async function isOpenToUs(file: string): Promise<boolean> {
  try {
    await access(file, constants.W_OK);
    return true;
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code !== "EACCES" && code !== "EPERM") throw cause;
    return false;
  }
}

/** Asks before any work is done whether a folder takes a new file; what is saved takes its place from beside the old. */
export async function requireOpen(folder: string): Promise<void> {
  await access(folder, constants.W_OK);
}

async function requireFolder(path: string): Promise<void> {
  const folder = dirname(path);
  if ((await stat(folder).catch(undefinedWhereMissing))?.isDirectory()) return requireOpen(folder);
  const problem = `would lie in “${folder}”, which is not a folder`;
  throw (
    brokenLinkProblem(path, undefined, "writing") ??
    new WorkbookFileError("not-found", path, problem, "Make the folder first, or name another.")
  );
}

function undefinedWhereMissing(cause: unknown): undefined {
  const { code } = cause as NodeJS.ErrnoException;
  if (code !== "ENOENT" && code !== "ENOTDIR") throw cause;
}
