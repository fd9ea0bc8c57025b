import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { type Zippable, zipSync } from "fflate";

/** One moment for every file of every archive, so that the same files always give the same bytes. */
const MOMENT = new Date(1980, 0, 1, 12);

/** Every file below a folder, by its path within, in a fixed order. */
export function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .sort();
}

/** Zips a folder's files under one folder of the archive's name. */
export function zipFolder(folder: string, top: string): Uint8Array {
  const files: Zippable = {};
  for (const path of filesBelow(folder)) files[`${top}/${path}`] = [readFileSync(join(folder, path)), { level: 9 }];
  return zipSync(files, { mtime: MOMENT });
}
