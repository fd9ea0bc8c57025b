import { Inflate } from "fflate";
import { WorkbookFileError } from "../workbook-file-error.js";
import type { ZipArchive, ZipEntry } from "./archive.js";
import { crc32 } from "./crc32.js";

/** Compressed bytes handed over at once: at 1032 to 1 they inflate to 34 MB at most before the bound is looked at. */
const STEP_BYTES = 32_768;

/**
 * Unpacks one entry, never beyond the size that it declares.
 *
 * @param archive - The archive
 * @param entry - One of its entries
 * @param limitBytes - The most that the caller wants to hold [bytes]
 * @returns The entry's bytes
 * @throws {WorkbookFileError} When the entry is larger than allowed, not what it declares, or damaged
 */
export function inflateEntry(archive: ZipArchive, entry: ZipEntry, limitBytes: number): Uint8Array {
  const place = `${archive.fileName}, part ${entry.name}`;
  if (entry.bytes > limitBytes) {
    throw new WorkbookFileError(
      "too-large",
      place,
      `would unpack to ${Math.ceil(entry.bytes / 2 ** 20)} MB, more than ${Math.floor(limitBytes / 2 ** 20)} MB`,
      "Remove rows and sheets that this job does not need, or split the workbook.",
    );
  }
  const packed = archive.bytes.subarray(entry.dataOffset, entry.dataOffset + entry.compressedBytes);
  const bytes = entry.method === 0 ? packed : inflate(packed, entry.bytes, place);
  if (crc32(bytes) !== entry.crc32) throw damaged(place, "does not match its check sum");
  return bytes;
}

function inflate(packed: Uint8Array, declaredBytes: number, place: string): Uint8Array {
  const bytes = new Uint8Array(declaredBytes);
  let length = 0;
  const stream = new Inflate((chunk) => {
    if (length + chunk.length > declaredBytes) {
      throw new WorkbookFileError(
        "unsafe-archive",
        place,
        "unpacks to more than it declares",
        "Do not trust this file; ask whoever sent it for a fresh copy.",
      );
    }
    bytes.set(chunk, length);
    length += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += STEP_BYTES) {
      stream.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length);
    }
  } catch (cause) {
    if (cause instanceof WorkbookFileError) throw cause;
    throw damaged(place, "cannot be unpacked", { cause });
  }
  if (length !== declaredBytes) throw damaged(place, "unpacks to less than it declares");
  return bytes;
}

function damaged(place: string, problem: string, options?: ErrorOptions): WorkbookFileError {
  const advice = "Get a fresh copy from where it came from, or restore it from a backup.";
  return new WorkbookFileError("damaged-archive", place, problem, advice, options);
}
