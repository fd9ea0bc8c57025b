import { readTypedNumber } from "../controls/read-typed-number.js";

/** Readings as typed one after another, or what is wrong with them. */
export type TypedReadings = { readonly values: readonly number[] } | { readonly error: string };

/** What the sheets take as a velocity. */
const MOST = 20_000;

/**
 * Reads one or more readings with a space between them.
 *
 * @param most - As many as the sheet has cells for
 */
export function readTypedReadings(text: string, most: number): TypedReadings {
  const words = text.split(/[\s;]+/).filter((word) => word !== "");
  if (words.length === 0) return { error: "Enter what the meter shows; several readings with a space between them." };
  if (words.length > most) return { error: `The sheet has room for ${most} here. Enter ${most} or fewer.` };
  const values: number[] = [];
  for (const word of words) {
    const read = readTypedNumber(word, -MOST, MOST);
    if ("error" in read) return { error: words.length === 1 ? read.error : `“${word}”: ${read.error}` };
    if (read.value !== null) values.push(read.value);
  }
  return { values };
}
