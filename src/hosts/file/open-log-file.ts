import { readSync } from "node:fs";
import { type LogPieces, LogProblem, requireLogSize } from "../../logger/index.js";
import { fileProblem } from "./file-problem.js";
import { openRegularFile } from "./open-regular-file.js";

const PIECE_BYTES = 2 ** 20;

/** A log on a disk, open for reading. */
export interface LogFile extends LogPieces {
  readonly close: () => Promise<void>;
}

/**
 * Opens a log file, which is then read piece by piece as often as it takes.
 *
 * @param path - The file
 * @throws {WorkbookFileError} When it cannot be read or is no file on a disk
 * @throws {LogProblem} When it is larger than any log
 */
export async function openLogFile(path: string): Promise<LogFile> {
  try {
    const { file, stats } = await openRegularFile(path, "a log file");
    try {
      requireLogSize(stats.size);
    } catch (cause) {
      await file.close();
      throw cause;
    }
    return { bytes: stats.size, pieces: () => piecesOf(file.fd, stats.size), close: () => file.close() };
  } catch (cause) {
    if (cause instanceof LogProblem) throw cause;
    throw fileProblem(path, cause, "reading");
  }
}

/** Goes through as much of a file as it had when it was opened; an instrument may still be writing to it. */
function* piecesOf(descriptor: number, size: number): Generator<Uint8Array> {
  for (let at = 0; at < size; ) {
    const piece = new Uint8Array(Math.min(PIECE_BYTES, size - at));
    const count = readSync(descriptor, piece, 0, piece.length, at);
    if (count === 0) return;
    yield piece.subarray(0, count);
    at += count;
  }
}
