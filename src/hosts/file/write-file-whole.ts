import { closeSync, openSync } from "node:fs";
import { type FileHandle, link, lstat, open, rename, unlink } from "node:fs/promises";
import { dirname } from "node:path";
import { otherNamesOf, renewOtherNames } from "./other-names.js";
import { removedWhenEnded } from "./remove-when-ended.js";
import { removeAbandoned, temporaryNameFor } from "./temporary-file.js";

/** How a file takes its place: its permissions, whether one of that name may go, and a last check, which may throw. */
export interface WholeFileOptions {
  readonly mode: number;
  readonly existing: "refuse" | "replace";
  readonly beforeReplacing: () => Promise<void>;
}

/**
 * Writes a file so that at every moment, whatever fails, the folder holds either the old file or the new one whole: the
 * content goes to a temporary file beside it, is forced to disk, and takes the old one's place in one step. What is not
 * finished is removed, also when the process is ended by Ctrl-C; a process that is killed outright leaves its temporary
 * file, and the next save in the same folder removes it.
 *
 * @param path - The file
 * @param content - Its new content
 * @returns How many other names of the file, hard links, still have the old content
 */
export async function writeFileWhole(path: string, content: Uint8Array, options: WholeFileOptions): Promise<number> {
  return fillFileWhole(path, options, (file) => file.writeFile(content));
}

/** Does the same with a file that is filled bit by bit, through the temporary file or by its name. */
export async function fillFileWhole(
  path: string,
  options: WholeFileOptions,
  fill: (file: FileHandle, temporary: string) => Promise<void>,
): Promise<number> {
  await removeAbandoned(dirname(path));
  const temporary = temporaryNameFor(path);
  const before = await lstat(path).catch(() => undefined);
  const otherNames = await otherNamesOf(path, before);
  await removedWhenEnded(temporary, () => replaceBy(temporary, path, options, fill));
  const old = await renewOtherNames(path, otherNames);
  await syncFolder(dirname(path));
  return old;
}

async function replaceBy(
  temporary: string,
  path: string,
  { mode, existing, beforeReplacing }: WholeFileOptions,
  fill: (file: FileHandle, temporary: string) => Promise<void>,
): Promise<void> {
  // Made at once, not in another thread: when Ctrl-C is heard, the file is either there to be removed or never will be.
  closeSync(openSync(temporary, "wx", mode));
  try {
    const file = await open(temporary, "r+");
    try {
      await fill(file, temporary);
      // The mode given on opening is cut down by the process's own mask.
      await file.chmod(mode);
      await file.sync();
    } finally {
      await file.close();
    }
    await beforeReplacing();
    if (existing === "replace") await rename(temporary, path);
    else await takeFreeName(temporary, path);
  } catch (cause) {
    await unlink(temporary).catch(() => undefined);
    throw cause;
  }
}

/** Gives a file its name unless that is taken: a rename would replace what is there, a link fails. */
async function takeFreeName(temporary: string, path: string): Promise<void> {
  try {
    await link(temporary, path);
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS") throw cause;
    // Some file systems know no links: claim the name with an empty file, then take its place.
    await (await open(path, "wx")).close();
    await removedWhenEnded(path, () => rename(temporary, path));
    return;
  }
  await unlink(temporary);
}

/** Forces the folder's list of names to disk, where the system lets us; the file itself is there already. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, "r");
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code !== "EISDIR" && code !== "EPERM" && code !== "EACCES" && code !== "EINVAL" && code !== "ENOTSUP")
      throw cause;
  }
}
