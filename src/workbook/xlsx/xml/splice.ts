import { strToU8 } from "fflate";

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
  const texts = ordered.map(({ text }) => strToU8(text));
  let length = bytes.length;
  let reached = 0;
  ordered.forEach(({ start, end }, index) => {
    if (start < reached || end < start || end > bytes.length) throw new Error("changes to one part overlap");
    reached = end;
    length += (texts[index] as Uint8Array).length - (end - start);
  });
  const result = new Uint8Array(length);
  let from = 0;
  let to = 0;
  ordered.forEach(({ start, end }, index) => {
    const text = texts[index] as Uint8Array;
    result.set(bytes.subarray(from, start), to);
    result.set(text, to + start - from);
    to += start - from + text.length;
    from = end;
  });
  result.set(bytes.subarray(from), to);
  return result;
}

function order({ start, end }: Splice): number {
  return start === end ? 0 : 1;
}
