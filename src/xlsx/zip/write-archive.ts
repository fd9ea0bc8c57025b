import { joinedBytes } from "../joined-bytes.js";
import { utf8Bytes } from "../xml/utf8.js";
import type { ZipArchive, ZipEntry } from "./archive.js";
import type { ArchiveCodec } from "./codec.js";

const LOCAL_BYTES = 30;
const RECORD_BYTES = 46;
const DATA_DESCRIPTOR_FLAG = 0x0008;
const UTF8_FLAG = 0x0800;
/** 1 January 1980, the first date that an archive can hold: what we add does not depend on the clock. */
const NO_DATE = 0x0021;

/** New content by part name; undefined takes the entry out. */
export type ArchiveChanges = ReadonlyMap<string, Uint8Array | undefined>;

interface Packed {
  readonly crc32: number;
  readonly bytes: number;
  readonly data: Uint8Array;
}

/**
 * Writes an archive in which some entries are new. All others keep their headers and compressed bytes, and the order
 * stays; entries that the archive lacked come last.
 *
 * @param archive - The archive as it was read
 * @param changes - What becomes of which entry
 * @returns The new file
 * @source PKWARE APPNOTE.TXT 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16
 */
export function writeArchive(archive: ZipArchive, changes: ArchiveChanges): Uint8Array {
  const { bytes, directoryOffset, endOffset } = archive;
  const byKey = new Map([...changes].map(([name, content]) => [name.toLowerCase(), { name, content }]));
  const inFileOrder = archive.entries.toSorted((one, other) => one.localOffset - other.localOffset);
  const pieces: Uint8Array[] = [bytes.subarray(0, inFileOrder[0]?.localOffset ?? 0)];
  let length = pieces[0]?.length ?? 0;
  const push = (piece: Uint8Array): void => {
    pieces.push(piece);
    length += piece.length;
  };
  const records = new Map<ZipEntry, Uint8Array>();
  inFileOrder.forEach((entry, index) => {
    const record = bytes.slice(entry.recordOffset, entry.recordOffset + entry.recordBytes);
    const change = byKey.get(entry.name.toLowerCase());
    if (change !== undefined && change.content === undefined) return;
    new DataView(record.buffer).setUint32(42, length, true);
    records.set(entry, record);
    if (change?.content === undefined) {
      push(bytes.subarray(entry.localOffset, inFileOrder[index + 1]?.localOffset ?? directoryOffset));
      return;
    }
    const packed = pack(archive.codec, change.content);
    const nameOffset = entry.localOffset + LOCAL_BYTES;
    const nameBytes = new DataView(bytes.buffer, bytes.byteOffset).getUint16(entry.localOffset + 26, true);
    const header = bytes.slice(entry.localOffset, nameOffset + nameBytes);
    describe(header, 6, packed);
    new DataView(header.buffer).setUint16(28, 0, true);
    describe(record, 8, packed);
    push(header);
    push(packed.data);
  });
  const known = new Set(archive.entries.map(({ name }) => name.toLowerCase()));
  const added: Uint8Array[] = [];
  for (const [key, { name, content }] of byKey) {
    if (known.has(key) || content === undefined) continue;
    const packed = pack(archive.codec, content);
    added.push(makeHeader(RECORD_BYTES, name, packed, length));
    push(makeHeader(LOCAL_BYTES, name, packed, 0));
    push(packed.data);
  }
  const directory = [...archive.entries.flatMap((entry) => records.get(entry) ?? []), ...added];
  const newDirectoryOffset = length;
  for (const record of directory) push(record);
  const end = bytes.slice(endOffset);
  const view = new DataView(end.buffer);
  view.setUint16(8, directory.length, true);
  view.setUint16(10, directory.length, true);
  view.setUint32(12, length - newDirectoryOffset, true);
  view.setUint32(16, newDirectoryOffset, true);
  push(end);
  return joinedBytes(pieces);
}

function pack(codec: ArchiveCodec, content: Uint8Array): Packed {
  return { crc32: codec.crc32(content), bytes: content.length, data: codec.deflate(content) };
}

/** Fills in flags, method, check sum and sizes; `at` is where the flags stand in this kind of header. */
function describe(header: Uint8Array, at: number, packed: Packed): void {
  const view = new DataView(header.buffer);
  view.setUint16(at, view.getUint16(at, true) & ~DATA_DESCRIPTOR_FLAG, true);
  view.setUint16(at + 2, 8, true);
  view.setUint32(at + 8, packed.crc32, true);
  view.setUint32(at + 12, packed.data.length, true);
  view.setUint32(at + 16, packed.bytes, true);
}

function makeHeader(fixedBytes: number, name: string, packed: Packed, localOffset: number): Uint8Array {
  const nameBytes = utf8Bytes(name);
  const header = new Uint8Array(fixedBytes + nameBytes.length);
  const view = new DataView(header.buffer);
  const isRecord = fixedBytes === RECORD_BYTES;
  const flagsAt = isRecord ? 8 : 6;
  view.setUint32(0, isRecord ? 0x02014b50 : 0x04034b50, true);
  view.setUint16(4, 20, true);
  view.setUint16(flagsAt - 2, 20, true);
  view.setUint16(flagsAt, nameBytes.length === name.length ? 0 : UTF8_FLAG, true);
  view.setUint16(flagsAt + 6, NO_DATE, true);
  view.setUint16(isRecord ? 28 : 26, nameBytes.length, true);
  describe(header, flagsAt, packed);
  if (isRecord) view.setUint32(42, localOffset, true);
  header.set(nameBytes, fixedBytes);
  return header;
}
