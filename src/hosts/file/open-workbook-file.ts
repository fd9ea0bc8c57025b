import { realpath } from "node:fs/promises";
import { basename } from "node:path";
import { type ArchiveCodec, openWorkbook, requireFileSize, type Workbook } from "../../xlsx/index.js";
import { type FileIdentity, identityOf } from "./file-identity.js";
import { fileProblem } from "./file-problem.js";
import { openRegularFile, readWhole } from "./open-regular-file.js";
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
 * @param codec - Of a thread that may be ended while it unpacks
 * @throws {WorkbookFileError} When the file cannot be read or is no workbook that is safe to open
 */
export async function openWorkbookFile(path: string, codec: ArchiveCodec = zlibCodec): Promise<WorkbookFile> {
  try {
    const realPath = await realpath(path);
    const opened = await openRegularFile(path, "a workbook file");
    try {
      requireFileSize(opened.stats.size, path);
      const bytes = await readWhole(opened);
      return {
        path: realPath,
        workbook: openWorkbook(bytes, basename(path), codec),
        identity: identityOf(bytes, opened.stats),
      };
    } finally {
      await opened.file.close();
    }
  } catch (cause) {
    throw fileProblem(path, cause, "reading");
  }
}
