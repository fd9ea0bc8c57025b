import { WorkbookFileError } from "../workbook-file-error.js";
import type { ZipArchive, ZipEntry } from "./archive.js";
import { type ArchiveCodec, OverLimitError } from "./codec.js";

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
  const bytes = entry.method === 0 ? packed : inflate(archive.codec, packed, entry.bytes, place);
  if (archive.codec.crc32(bytes) !== entry.crc32) throw damaged(place, "does not match its check sum");
  return bytes;
}

function inflate(codec: ArchiveCodec, packed: Uint8Array, declaredBytes: number, place: string): Uint8Array {
  let bytes: Uint8Array;
  try {
    bytes = codec.inflate(packed, declaredBytes);
  } catch (cause) {
    if (!(cause instanceof OverLimitError)) throw damaged(place, "cannot be unpacked", { cause });
    const advice = "Do not trust this file; ask whoever sent it for a fresh copy.";
    throw new WorkbookFileError("unsafe-archive", place, "unpacks to more than it declares", advice, { cause });
  }
  if (bytes.length !== declaredBytes) throw damaged(place, "unpacks to less than it declares");
  return bytes;
}

function damaged(place: string, problem: string, options?: ErrorOptions): WorkbookFileError {
  const advice = "Get a fresh copy from where it came from, or restore it from a backup.";
  return new WorkbookFileError("damaged-archive", place, problem, advice, options);
}
