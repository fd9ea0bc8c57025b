import type { Stats } from "node:fs";
import { link, lstat, readdir, rename, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { removedWhenEnded } from "./remove-when-ended.js";
import { temporaryNameFor } from "./temporary-file.js";

/** The further names of a file: hard links, each of which is the file as much as the name that was given. */
export interface OtherNames {
  /** In the same folder, where they can be found. */
  readonly found: readonly string[];
  /** How many more there are, in folders that nobody can know. */
  readonly elsewhere: number;
}

const NONE: OtherNames = { found: [], elsewhere: 0 };

/** Finds the further names of a file. */
export async function otherNamesOf(path: string, stats: Stats | undefined): Promise<OtherNames> {
  if (stats === undefined || stats.nlink < 2) return NONE;
  const folder = dirname(path);
  const found: string[] = [];
  for (const name of await readdir(folder)) {
    if (name === basename(path)) continue;
    const other = await lstat(join(folder, name)).catch(() => undefined);
    if (other?.isFile() === true && other.dev === stats.dev && other.ino === stats.ino) found.push(join(folder, name));
  }
  return { found, elsewhere: Math.max(stats.nlink - 1 - found.length, 0) };
}

/**
 * Gives the new file its other names as well: each in one step, so that at every moment each is the old file or the new
 * one, whole.
 *
 * @returns How many names still have the old file: those that were not found, or cannot be linked
 */
export async function renewOtherNames(path: string, { found, elsewhere }: OtherNames): Promise<number> {
  let old = elsewhere;
  for (const name of found) {
    const temporary = temporaryNameFor(name);
    try {
      await removedWhenEnded([temporary], async () => {
        await link(path, temporary);
        await rename(temporary, name);
      });
    } catch {
      await unlink(temporary).catch(() => undefined);
      // The file itself is saved; that this name was left behind is said to whoever saved it.
      old += 1;
    }
  }
  return old;
}
