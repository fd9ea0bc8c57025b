import { requireLogSize } from "./log-limits.js";

/** A log that comes in pieces and is gone through several times, so that it is never held whole. */
export interface LogPieces {
  readonly bytes: number;
  /** Its bytes from the beginning, piece by piece. */
  readonly pieces: () => Iterable<Uint8Array>;
}

/** What a log is read from: its text, its bytes, or its bytes in pieces. */
export type LogContent = string | Uint8Array | LogPieces;

const PIECE_BYTES = 2 ** 20;

function* piecesOf(bytes: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += PIECE_BYTES) yield bytes.subarray(at, at + PIECE_BYTES);
}

/**
 * Returns a log's bytes in pieces.
 *
 * @throws {LogProblem} When they are more than any log has
 */
export function inPieces(content: Uint8Array | LogPieces): LogPieces {
  const whole = content instanceof Uint8Array ? { bytes: content.length, pieces: () => piecesOf(content) } : content;
  requireLogSize(whole.bytes);
  return whole;
}

/** Returns the first bytes of a log. */
export function headOf({ pieces }: LogPieces, length: number): Uint8Array {
  for (const piece of pieces()) return piece.subarray(0, length);
  return new Uint8Array();
}

/** Returns all bytes of a log in one piece. */
export function wholeOf({ bytes, pieces }: LogPieces): Uint8Array {
  const whole = new Uint8Array(bytes);
  let at = 0;
  for (const piece of pieces()) {
    const fitting = piece.subarray(0, bytes - at);
    whole.set(fitting, at);
    at += fitting.length;
  }
  return whole.subarray(0, at);
}
