import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { inUtf8 } from "../xml/utf16-part.js";
import { findEntry, type ZipArchive } from "../zip/archive.js";
import { inflateEntry } from "../zip/inflate-entry.js";
import { type Relationship, readRelationships, relationshipsPartOf } from "./relationships.js";

/** Where a part is, for messages. */
export function placeOf(archive: ZipArchive, partName: string): string {
  return `${archive.fileName}, part ${partName}`;
}

/** Returns a part's bytes, XML in UTF-8 whatever the file has; undefined when the file has no such part. */
export function readOptionalPart(
  archive: ZipArchive,
  partName: string,
  limitBytes: number = WORKBOOK_LIMITS.smallPartBytes,
): Uint8Array | undefined {
  const entry = findEntry(archive, partName);
  return entry === undefined ? undefined : inUtf8(inflateEntry(archive, entry, limitBytes), placeOf(archive, partName));
}

/** Returns a part's bytes; a missing part is an error. */
export function readPart(archive: ZipArchive, partName: string, limitBytes?: number): Uint8Array {
  const bytes = readOptionalPart(archive, partName, limitBytes);
  if (bytes !== undefined) return bytes;
  throw new WorkbookFileError(
    "damaged-workbook",
    archive.fileName,
    `lacks its part ${partName}`,
    "Get a fresh copy from where it came from, or restore it from a backup.",
  );
}

/** Returns the relationships of a part; none when it has no list of them. */
export function relationshipsOf(archive: ZipArchive, partName: string): readonly Relationship[] {
  const listName = relationshipsPartOf(partName);
  const bytes = readOptionalPart(archive, listName);
  return bytes === undefined ? [] : readRelationships(bytes, placeOf(archive, listName), partName);
}
