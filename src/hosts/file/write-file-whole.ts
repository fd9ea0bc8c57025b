import { closeSync, openSync, writeFileSync } from "node:fs";
import { type FileHandle, link, lstat, open, rename, unlink } from "node:fs/promises";
import { basename, dirname } from "node:path";
import { type OtherNames, otherNamesOf, renewOtherNames } from "./other-names.js";
import { removedWhenEnded } from "./remove-when-ended.js";
import { replaceTogether } from "./replace-together.js";
import { claimNoteFor, removeAbandoned, temporaryNameFor } from "./temporary-file.js";

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
  fill: FileToFill["fill"],
): Promise<number> {
  return fillFilesWhole([{ path, options, fill }]);
}

/** A file, and what fills it. */
export interface FileToFill {
  readonly path: string;
  readonly options: WholeFileOptions;
  readonly fill: (file: FileHandle, temporary: string) => Promise<void>;
}

/**
 * Does the same with files that belong together: all are filled before the first takes its place, so that a full disk
 * leaves all the old ones. All of them replace what is there, or none does.
 */
export async function fillFilesWhole(files: readonly FileToFill[]): Promise<number> {
  const folders = new Set(files.map(({ path }) => dirname(path)));
  for (const folder of folders) await removeAbandoned(folder);
  const staged: StagedFile[] = [];
  for (const file of files) {
    const before = await lstat(file.path).catch(() => undefined);
    const otherNames = await otherNamesOf(file.path, before);
    staged.push({ ...file, temporary: temporaryNameFor(file.path), otherNames });
  }
  await removedWhenEnded(
    staged.map(({ temporary }) => temporary),
    () => replaceAll(staged),
  );
  let old = 0;
  for (const { path, otherNames } of staged) old += await renewOtherNames(path, otherNames);
  for (const folder of folders) await syncFolder(folder);
  return old;
}

interface StagedFile extends FileToFill {
  readonly temporary: string;
  readonly otherNames: OtherNames;
}

async function replaceAll(staged: readonly StagedFile[]): Promise<void> {
  try {
    for (const file of staged) await fillTemporary(file);
    for (const { options } of staged) await options.beforeReplacing();
    if (staged.every(({ options }) => options.existing === "replace")) replaceTogether(staged);
    else for (const { temporary, path } of staged) await takeFreeName(temporary, path);
  } catch (cause) {
    for (const { temporary } of staged) await unlink(temporary).catch(() => undefined);
    throw cause;
  }
}

async function fillTemporary({ temporary, options: { mode }, fill }: StagedFile): Promise<void> {
  // Made at once, not in another thread: when Ctrl-C is heard, the file is either there to be removed or never will be.
  closeSync(openSync(temporary, "wx", mode));
  const file = await open(temporary, "r+");
  try {
    await fill(file, temporary);
    // The mode given on opening is cut down by the process's own mask.
    await file.chmod(mode);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Gives a file its name unless that is taken: a rename would replace what is there, a link fails. */
async function takeFreeName(temporary: string, path: string): Promise<void> {
  try {
    await link(temporary, path);
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException;
    if (code !== "EPERM" && code !== "ENOTSUP" && code !== "ENOSYS") throw cause;
    await claimFreeName(temporary, path);
    return;
  }
  // The file is there, whole: a second name that cannot be taken away is no reason to say that it is not.
  await unlink(temporary).catch(() => undefined);
}

/**
 * Does the same on a file system that knows no links: claims the name with an empty file, then takes its place. A note
 * beside it says so, by which the next save in the folder knows the empty file of a process that was killed in between.
 */
async function claimFreeName(temporary: string, path: string): Promise<void> {
  const note = claimNoteFor(path);
  await removedWhenEnded([note], async () => {
    try {
      // Both at once, so that Ctrl-C is heard before they are there or when they are known.
      writeFileSync(note, basename(path), { flag: "wx" });
      closeSync(openSync(path, "wx"));
      await removedWhenEnded([path], async () => {
        try {
          await rename(temporary, path);
        } catch (cause) {
          await unlink(path).catch(() => undefined);
          throw cause;
        }
      });
    } finally {
      await unlink(note).catch(() => undefined);
    }
  });
}

/**
 * Forces the folder's list of names to disk, where the system lets us. The file is in its place already, and nothing that
 * fails here changes that.
 */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => undefined);
  if (handle === undefined) return;
  try {
    await handle.sync().catch(() => undefined);
  } finally {
    await handle.close();
  }
}
