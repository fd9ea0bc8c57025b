import { Zip, type ZipInputFile } from "fflate";
import { type ArchiveCodec, joinedBytes } from "../../xlsx/index.js";
import { utf8Bytes } from "../../xlsx/xml/utf8.js";
import { FIXED_TIME } from "./packed-parts.js";

/** A part of a workbook whose text comes in pieces. */
export interface PartInPieces {
  readonly name: string;
  readonly pieces: Iterable<string>;
}

/** So many characters are packed at a time. */
const PACKED_AT_ONCE = 2 ** 18;
/** How a zip names the method (APPNOTE.TXT 4.4.5). */
const DEFLATED = 8;

/** Packs a workbook whose parts are made while they are packed; the same parts always give the same bytes. */
export function packedPieces(parts: Iterable<PartInPieces>, codec: ArchiveCodec): Uint8Array {
  const packed: Uint8Array[] = [];
  const zip = new Zip((failure, piece) => {
    if (failure !== null) throw failure;
    packed.push(piece);
  });
  for (const { name, pieces } of parts) {
    const entry: ZipInputFile = { filename: name, size: 0, crc: 0, compression: DEFLATED, mtime: FIXED_TIME };
    zip.add(entry);
    const pack = codec.packer();
    const push = (text: string, isLast: boolean) => {
      const bytes = utf8Bytes(text);
      entry.size += bytes.length;
      entry.crc = codec.crc32(bytes, entry.crc);
      entry.ondata?.(null, pack(bytes, isLast), isLast);
    };
    let waiting: string[] = [];
    let length = 0;
    for (const piece of pieces) {
      waiting.push(piece);
      length += piece.length;
      if (length < PACKED_AT_ONCE) continue;
      push(waiting.join(""), false);
      [waiting, length] = [[], 0];
    }
    push(waiting.join(""), true);
  }
  zip.end();
  return joinedBytes(packed);
}
