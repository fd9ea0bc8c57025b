import { utf8Bytes } from "./utf8.js";

/** Text that takes the place of some bytes. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * Replaces stretches of bytes. Splices may come in any order but must not overlap. At one place, what is put in comes
 * before what takes the place of something, and otherwise what was given first comes first.
 */
export function spliceBytes(bytes: Uint8Array, splices: readonly Splice[]): Uint8Array {
  const ordered = splices.toSorted((one, other) => one.start - other.start || order(one) - order(other));
  let length = bytes.length;
  let reached = 0;
  for (const { start, end, text } of ordered) {
    if (start < reached || end < start || end > bytes.length) throw new Error("changes to one part overlap");
    reached = end;
    length += utf8Length(text) - (end - start);
  }
  const result = new Uint8Array(length);
  let from = 0;
  let to = 0;
  for (const { start, end, text } of ordered) {
    result.set(bytes.subarray(from, start), to);
    to = writeText(result, to + start - from, text);
    from = end;
  }
  result.set(bytes.subarray(from), to);
  return result;
}

/** Most of what is written is short and ASCII: a loop is faster than an encoder's call and makes no garbage. */
function isAscii(text: string): boolean {
  for (let index = 0; index < text.length; index += 1) {
    if (text.charCodeAt(index) > 127) return false;
  }
  return true;
}

function utf8Length(text: string): number {
  return isAscii(text) ? text.length : utf8Bytes(text).length;
}

function writeText(result: Uint8Array, at: number, text: string): number {
  if (isAscii(text)) {
    for (let index = 0; index < text.length; index += 1) result[at + index] = text.charCodeAt(index);
    return at + text.length;
  }
  const encoded = utf8Bytes(text);
  result.set(encoded, at);
  return at + encoded.length;
}

function order({ start, end }: Splice): number {
  return start === end ? 0 : 1;
}
