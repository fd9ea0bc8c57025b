import { constants, type Stats } from "node:fs";
import { type FileHandle, open, stat } from "node:fs/promises";
import { WorkbookFileError } from "../../xlsx/index.js";

/** A file with its content on a disk, opened. */
export interface RegularFile {
  readonly file: FileHandle;
  readonly stats: Stats;
}

/** Windows knows no such flag, and no named pipes among its files. */
const AT_ONCE = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/**
 * Opens a file for reading, and nothing but a file: a named pipe would be waited for until somebody writes to it, a
 * device has no end. Looked at before it is opened, since opening alone may already do something to a device, and
 * afterwards, since another may have taken its place.
 *
 * @param path - The file
 * @param what - What has to be named instead, as in "a workbook file"
 * @throws {WorkbookFileError} When it is a folder, a pipe, a device or a socket
 */
export async function openRegularFile(path: string, what: string): Promise<RegularFile> {
  requireRegular(await stat(path), path, what);
  const file = await open(path, AT_ONCE);
  try {
    const stats = await file.stat();
    requireRegular(stats, path, what);
    return { file, stats };
  } catch (cause) {
    await file.close();
    throw cause;
  }
}

/** Refuses whatever is no file on a disk. */
export function requireRegular(stats: Stats, path: string, what: string): void {
  if (stats.isFile()) return;
  throw new WorkbookFileError("not-readable", path, kindOf(stats), `Name ${what}.`);
}

function kindOf(stats: Stats): string {
  if (stats.isDirectory()) return "is a folder";
  if (stats.isFIFO()) return "is a named pipe, not a file on disk";
  if (stats.isSocket()) return "is a socket, not a file on disk";
  return "is a device, not a file on disk";
}

/** Reads into one piece of the right size; `readFile` would hold the content twice. */
export async function readWhole({ file, stats }: RegularFile): Promise<Uint8Array> {
  const bytes = new Uint8Array(stats.size);
  let length = 0;
  while (length < stats.size) {
    const { bytesRead } = await file.read(bytes, length, stats.size - length, length);
    if (bytesRead === 0) break;
    length += bytesRead;
  }
  return bytes.subarray(0, length);
}
