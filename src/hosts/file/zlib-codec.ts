import { constants, crc32, deflateRawSync, inflateRawSync } from "node:zlib";
import { type ArchiveCodec, OverLimitError, packingLevel } from "../../xlsx/index.js";

/** Smallest piece in which zlib hands bytes over. */
const MIN_CHUNK_BYTES = 64;

/** Packs and unpacks with Node's own zlib, which is faster than what runs anywhere. */
export const zlibCodec: ArchiveCodec = {
  inflate(packed, limitBytes) {
    try {
      // One piece of the whole size, so that nothing is copied together afterwards.
      const chunkSize = Math.max(limitBytes, MIN_CHUNK_BYTES);
      return toBytes(inflateRawSync(packed, { maxOutputLength: Math.max(limitBytes, 1), chunkSize }));
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "ERR_BUFFER_TOO_LARGE") throw cause;
      throw new OverLimitError("more than allowed", { cause });
    }
  },
  deflate: (content) => toBytes(deflateRawSync(content, { level: packingLevel(content.length) })),
  // Pieces that begin anew and end on a whole byte make one stream, one behind the other.
  packer: () => (piece, isLast) =>
    toBytes(deflateRawSync(piece, { level: 1, finishFlush: isLast ? constants.Z_FINISH : constants.Z_SYNC_FLUSH })),
  crc32,
};

function toBytes(buffer: Buffer<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  return new Uint8Array(buffer.buffer, buffer.byteOffset, buffer.byteLength);
}
