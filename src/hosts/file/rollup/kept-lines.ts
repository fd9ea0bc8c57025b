import { Buffer } from "node:buffer";
import { crc32 } from "node:zlib";

/*
 * A line of what is kept: eight hexadecimal digits of its checksum, a blank, JSON. A line that was torn by a cut-off
 * does not fit its checksum and is passed over.
 */

const DIGITS = 8;
export const LINE_END = 0x0a;

/** Spells a line, its end included. */
export function keptLine(content: unknown): Uint8Array {
  const json = Buffer.from(JSON.stringify(content));
  return Buffer.concat([Buffer.from(`${checksum(json)} `), json, Buffer.from("\n")]);
}

/** Returns a line's JSON as bytes, or undefined where the line is torn. */
export function contentOfLine(line: Uint8Array): Buffer | undefined {
  const bytes = Buffer.from(line.buffer, line.byteOffset, line.byteLength);
  const json = bytes.subarray(DIGITS + 1);
  return bytes.toString("latin1", 0, DIGITS) === checksum(json) ? json : undefined;
}

function checksum(json: Uint8Array): string {
  return crc32(json).toString(16).padStart(DIGITS, "0");
}

/** One line of a file, without its end, and where it stands. */
export interface PlacedLine {
  readonly line: Buffer;
  readonly start: number;
  /** Behind the line's end. */
  readonly end: number;
}

/** Goes through the lines of a file that comes in pieces; what follows the last line's end is no line. */
export async function* linesOf(pieces: AsyncIterable<Buffer>): AsyncGenerator<PlacedLine> {
  let rest: Buffer[] = [];
  let start = 0;
  for await (const piece of pieces) {
    let from = 0;
    for (let at = piece.indexOf(LINE_END); at >= 0; at = piece.indexOf(LINE_END, from)) {
      const line = rest.length === 0 ? piece.subarray(from, at) : Buffer.concat([...rest, piece.subarray(from, at)]);
      const end = start + line.length + 1;
      yield { line, start, end };
      [rest, start, from] = [[], end, at + 1];
    }
    if (from < piece.length) rest.push(piece.subarray(from));
  }
}
