import * as fflate from /* webpackDefer: true */ "fflate";
import { joinedBytes } from "../joined-bytes.js";
import { crc32 } from "./crc32.js";

/** How deflated bytes are packed and unpacked. A host may bring a faster one than the one here, which runs anywhere. */
export interface ArchiveCodec {
  /** Unpacks at most `limitBytes`; throws when there would be more, or when the bytes are damaged. */
  readonly inflate: (packed: Uint8Array, limitBytes: number) => Uint8Array;
  readonly deflate: (content: Uint8Array) => Uint8Array;
  /** Starts to pack an entry that comes in pieces, soonest done rather than smallest. */
  readonly packer: () => PiecePacker;
  /** The check sum of an entry, as an unsigned number; of a piece with that of the pieces before. */
  readonly crc32: (content: Uint8Array, before?: number) => number;
}

/** Takes the pieces of an entry in their order and returns what each of them adds to the packed bytes. */
export type PiecePacker = (piece: Uint8Array, isLast: boolean) => Uint8Array<ArrayBuffer>;

/** Thrown by a codec when there is more to unpack than was allowed. */
export class OverLimitError extends Error {}

/** Compressed bytes handed over at once: at 1032 to 1 they inflate to 34 MB at most before the bound is looked at. */
const STEP_BYTES = 32_768;
const LARGE_BYTES = 4 * 2 ** 20;

/** How hard to try, from 1 to 9: large parts are packed in half the time and a little less tightly. */
export function packingLevel(contentBytes: number): 3 | 6 {
  return contentBytes > LARGE_BYTES ? 3 : 6;
}

/** The codec that runs anywhere. */
export const portableCodec: ArchiveCodec = {
  inflate(packed, limitBytes) {
    const bytes = new Uint8Array(limitBytes);
    let length = 0;
    const stream = new fflate.Inflate((chunk) => {
      if (length + chunk.length > limitBytes) throw new OverLimitError("more than allowed");
      bytes.set(chunk, length);
      length += chunk.length;
    });
    for (let at = 0; at < packed.length; at += STEP_BYTES) {
      stream.push(packed.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= packed.length);
    }
    return bytes.subarray(0, length);
  },
  deflate: (content) => fflate.deflateSync(content, { level: packingLevel(content.length) }),
  packer() {
    let packed: Uint8Array[] = [];
    const stream = new fflate.Deflate({ level: 1 }, (chunk) => packed.push(chunk));
    return (piece, isLast) => {
      packed = [];
      stream.push(piece, isLast);
      return joinedBytes(packed);
    };
  },
  crc32,
};
