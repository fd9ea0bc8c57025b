import type { ArchiveCodec } from "./codec.js";

/** One entry of a zip archive, as its central directory describes it. */
export interface ZipEntry {
  /** Its folders separated by slashes, also where the file has backslashes. */
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly flags: number;
  readonly crc32: number;
  readonly compressedBytes: number;
  readonly bytes: number;
  /** Where the entry's local header starts. */
  readonly localOffset: number;
  /** Where its compressed bytes start. */
  readonly dataOffset: number;
  /** Its record in the central directory. */
  readonly recordOffset: number;
  readonly recordBytes: number;
}

/** A zip archive whose directory has been read and found sound; no entry has been inflated yet. */
export interface ZipArchive {
  readonly fileName: string;
  readonly bytes: Uint8Array;
  readonly codec: ArchiveCodec;
  /** In the order of the central directory. */
  readonly entries: readonly ZipEntry[];
  /** By name in lower case: part names ignore case. Folder entries are left out. */
  readonly byName: ReadonlyMap<string, ZipEntry>;
  readonly directoryOffset: number;
  readonly endOffset: number;
}

/** Finds an entry by its part name, with or without the leading slash. */
export function findEntry(archive: ZipArchive, partName: string): ZipEntry | undefined {
  return archive.byName.get((partName.startsWith("/") ? partName.slice(1) : partName).toLowerCase());
}
