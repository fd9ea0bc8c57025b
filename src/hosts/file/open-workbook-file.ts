import { type FileHandle, open, realpath } from "node:fs/promises";
import { basename } from "node:path";
import { openWorkbook, requireFileSize, type Workbook, WorkbookFileError } from "../../xlsx/index.js";
import { type FileIdentity, identityOf } from "./file-identity.js";
import { fileProblem } from "./file-problem.js";
import { zlibCodec } from "./zlib-codec.js";

/** A workbook that was opened from a file. */
export interface WorkbookFile {
  /** Where the file really lies, links followed. */
  readonly path: string;
  readonly workbook: Workbook;
  readonly identity: FileIdentity;
}

/**
 * Opens a workbook file. The file is read once and closed; nothing locks it.
 *
 * @param path - The file
 * @throws {WorkbookFileError} When the file cannot be read or is no workbook that is safe to open
 */
export async function openWorkbookFile(path: string): Promise<WorkbookFile> {
  try {
    const realPath = await realpath(path);
    const file = await open(realPath, "r");
    try {
      const stats = await file.stat();
      if (!stats.isFile()) {
        const what = stats.isDirectory() ? "is a folder" : "is not a file on disk";
        throw new WorkbookFileError("not-readable", path, what, "Name a workbook file.");
      }
      requireFileSize(stats.size, path);
      const bytes = await readWhole(file, stats.size);
      return {
        path: realPath,
        workbook: openWorkbook(bytes, basename(path), zlibCodec),
        identity: identityOf(bytes, stats),
      };
    } finally {
      await file.close();
    }
  } catch (cause) {
    throw fileProblem(path, cause, "reading");
  }
}

/** Reads into one piece of the right size; `readFile` would hold the content twice. */
async function readWhole(file: FileHandle, size: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(size);
  let length = 0;
  while (length < size) {
    const { bytesRead } = await file.read(bytes, length, size - length, length);
    if (bytesRead === 0) break;
    length += bytesRead;
  }
  return bytes.subarray(0, length);
}
