import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { latin1Text, utf8Text } from "../xml/utf8.js";
import type { ZipArchive, ZipEntry } from "./archive.js";
import type { ArchiveCodec } from "./codec.js";

const END_SIGNATURE = 0x06054b50;
const RECORD_SIGNATURE = 0x02014b50;
const LOCAL_SIGNATURE = 0x04034b50;
const END_BYTES = 22;
const RECORD_BYTES = 46;
const LOCAL_BYTES = 30;
/** Flags: encrypted, patched data, strongly encrypted, masked headers. */
const REFUSED_FLAGS = 0x0001 | 0x0020 | 0x0040 | 0x2000;
const UTF8_FLAG = 0x0800;

const SAVE_AGAIN = "Open it in your spreadsheet program, save it again as .xlsx, and use that copy.";
const ASK_AGAIN = "Get a fresh copy from where it came from, or restore it from a backup.";

/**
 * Reads the directory of a zip archive and refuses what a sound workbook never holds: entries that overlap, share a name,
 * point outside, are encrypted, need ZIP64, or declare sizes beyond the limits. Some tools write backslashes between the
 * folders of a name; they are read as slashes, before anything is asked of the name.
 *
 * @param file - The whole file
 * @param fileName - Named in messages
 * @param codec - Unpacks its entries later
 * @returns The archive, nothing inflated
 * @throws {WorkbookFileError} When the archive is damaged or unsafe
 * @source PKWARE APPNOTE.TXT 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16
 */
export function readArchive(file: Uint8Array, fileName: string, codec: ArchiveCodec): ZipArchive {
  // Of a subclass such as Node's Buffer, a slice would share the file's memory instead of being a copy of it.
  const isPlain = Object.getPrototypeOf(file) === Uint8Array.prototype;
  const bytes = isPlain ? file : new Uint8Array(file.buffer, file.byteOffset, file.byteLength);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const endOffset = findEnd(view, fileName);
  const count = view.getUint16(endOffset + 10, true);
  const directoryBytes = view.getUint32(endOffset + 12, true);
  const directoryOffset = view.getUint32(endOffset + 16, true);
  if (count === 0xffff || directoryBytes === 0xffffffff || directoryOffset === 0xffffffff) throw zip64(fileName);
  if (view.getUint16(endOffset + 8, true) !== count || view.getUint32(endOffset + 4, true) !== 0) {
    throw damaged(fileName, "is one piece of an archive split over several files");
  }
  if (count > WORKBOOK_LIMITS.entries) {
    throw unsafe(fileName, `holds ${count} parts, more than ${WORKBOOK_LIMITS.entries}`);
  }
  // Bytes between the directory and the end could hide a second directory, which another program might believe.
  if (directoryOffset + directoryBytes !== endOffset) throw damaged(fileName, "has a directory of the wrong length");

  const entries: ZipEntry[] = [];
  let at = directoryOffset;
  for (let index = 0; index < count; index += 1) {
    const entry = readRecord(view, at, directoryOffset, endOffset, fileName);
    entries.push(entry);
    at += entry.recordBytes;
  }
  if (at !== directoryOffset + directoryBytes) throw damaged(fileName, "has a directory of the wrong length");
  checkSizes(entries, fileName);
  checkOverlap(entries, directoryOffset, fileName);
  return { fileName, bytes, codec, entries, byName: indexByName(entries, fileName), directoryOffset, endOffset };
}

function findEnd(view: DataView, fileName: string): number {
  const last = view.byteLength - END_BYTES;
  for (let at = last; at >= 0 && at >= last - 0xffff; at -= 1) {
    if (
      view.getUint32(at, true) !== END_SIGNATURE ||
      at + END_BYTES + view.getUint16(at + 20, true) !== view.byteLength
    ) {
      continue;
    }
    if (at >= 20 && view.getUint32(at - 20, true) === 0x07064b50) throw zip64(fileName);
    return at;
  }
  throw damaged(fileName, "is cut short or damaged: the end of the archive is missing");
}

function readRecord(
  view: DataView,
  at: number,
  directoryOffset: number,
  endOffset: number,
  fileName: string,
): ZipEntry {
  if (at + RECORD_BYTES > endOffset || view.getUint32(at, true) !== RECORD_SIGNATURE) {
    throw damaged(fileName, "has a damaged directory");
  }
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const compressedBytes = view.getUint32(at + 20, true);
  const size = view.getUint32(at + 24, true);
  const nameBytes = view.getUint16(at + 28, true);
  const recordBytes = RECORD_BYTES + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  const localOffset = view.getUint32(at + 42, true);
  if (at + recordBytes > endOffset) throw damaged(fileName, "has a damaged directory");
  const written = readName(view, at + RECORD_BYTES, nameBytes, flags);
  const name = written.replaceAll("\\", "/");
  const place = `${fileName}, part ${printable(name)}`;
  checkName(name, fileName);
  if ((flags & REFUSED_FLAGS) !== 0) {
    throw new WorkbookFileError("encrypted", place, "is encrypted", "Remove the password in the program that set it.");
  }
  if (compressedBytes === 0xffffffff || size === 0xffffffff || localOffset === 0xffffffff) throw zip64(place);
  if (method !== 0 && method !== 8) throw unsafe(place, `is packed by a method (${method}) that workbooks do not use`);
  if (localOffset + LOCAL_BYTES > directoryOffset || view.getUint32(localOffset, true) !== LOCAL_SIGNATURE) {
    throw damaged(place, "is not where the directory says");
  }
  const localNameBytes = view.getUint16(localOffset + 26, true);
  const dataOffset = localOffset + LOCAL_BYTES + localNameBytes + view.getUint16(localOffset + 28, true);
  if (dataOffset + compressedBytes > directoryOffset) throw damaged(place, "reaches past the end of its archive");
  const localFlags = view.getUint16(localOffset + 6, true);
  const localName = readName(view, localOffset + LOCAL_BYTES, localNameBytes, localFlags);
  if (localName !== written || view.getUint16(localOffset + 8, true) !== method) {
    throw unsafe(place, "has a header that contradicts the directory");
  }
  return {
    name,
    method,
    flags,
    crc32: view.getUint32(at + 16, true),
    compressedBytes,
    bytes: size,
    localOffset,
    dataOffset,
    recordOffset: at,
    recordBytes,
  };
}

function readName(view: DataView, at: number, length: number, flags: number): string {
  const bytes = new Uint8Array(view.buffer, view.byteOffset + at, length);
  return (flags & UTF8_FLAG) === 0 ? latin1Text(bytes) : utf8Text(bytes);
}

function checkName(name: string, fileName: string): void {
  const segments = name.split("/");
  if (segments.at(-1) === "") segments.pop();
  const isSafe =
    name !== "" &&
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    !/[\u0000-\u001f\u007f:]/.test(name) &&
    segments.every((segment) => segment !== "" && segment !== "." && segment !== "..");
  if (!isSafe) throw unsafe(fileName, `holds a part with an unsafe name, ${printable(name)}`);
}

function checkSizes(entries: readonly ZipEntry[], fileName: string): void {
  let total = 0;
  for (const entry of entries) {
    total += entry.bytes;
    const place = `${fileName}, part ${entry.name}`;
    // Deflate never packs better than 1032 to 1 nor adds more than five bytes to each block, so other sizes are untrue.
    const isPossible =
      entry.method === 0
        ? entry.bytes === entry.compressedBytes
        : entry.bytes <= entry.compressedBytes * 1032 && entry.compressedBytes <= entry.bytes * 2 + 1024;
    if (!isPossible) throw unsafe(place, "declares a size that cannot be true");
    if (entry.bytes > WORKBOOK_LIMITS.ratioFreeBytes && entry.bytes > entry.compressedBytes * WORKBOOK_LIMITS.ratio) {
      throw unsafe(place, `would grow more than ${WORKBOOK_LIMITS.ratio}-fold when unpacked`);
    }
  }
  if (total > WORKBOOK_LIMITS.totalBytes) {
    throw new WorkbookFileError(
      "too-large",
      fileName,
      `would unpack to ${Math.round(total / 2 ** 20)} MB, more than ${WORKBOOK_LIMITS.totalBytes / 2 ** 20} MB`,
      "Remove pictures and sheets that this job does not need, or split the workbook.",
    );
  }
}

function checkOverlap(entries: readonly ZipEntry[], directoryOffset: number, fileName: string): void {
  const inFileOrder = entries.toSorted((one, other) => one.localOffset - other.localOffset);
  inFileOrder.forEach((entry, index) => {
    const limit = inFileOrder[index + 1]?.localOffset ?? directoryOffset;
    if (entry.dataOffset + entry.compressedBytes > limit) {
      throw unsafe(`${fileName}, part ${entry.name}`, "shares its bytes with another part");
    }
  });
}

function indexByName(entries: readonly ZipEntry[], fileName: string): Map<string, ZipEntry> {
  const byName = new Map<string, ZipEntry>();
  for (const entry of entries) {
    if (entry.name.endsWith("/")) continue;
    const key = entry.name.toLowerCase();
    if (byName.has(key)) throw unsafe(fileName, `holds two parts named ${entry.name}`);
    byName.set(key, entry);
  }
  return byName;
}

function printable(name: string): string {
  const text = name.replace(/[^\u0020-\u007e\u00a0-\uffff]/g, "?");
  return `“${text.length > 80 ? `${text.slice(0, 80)}…` : text}”`;
}

function damaged(place: string, problem: string): WorkbookFileError {
  return new WorkbookFileError("damaged-archive", place, problem, ASK_AGAIN);
}

function unsafe(place: string, problem: string): WorkbookFileError {
  return new WorkbookFileError("unsafe-archive", place, problem, SAVE_AGAIN);
}

function zip64(place: string): WorkbookFileError {
  return unsafe(place, "uses the ZIP64 form, which is meant for archives above 4 GB");
}
