import { readTypedNumber, type TypedNumber } from "../controls/read-typed-number.js";

/** As wide as the sheets' own inputs: beyond it a digit slipped. */
const LARGEST = 20_000;

/** Reads one velocity: empty is not taken, 0 a dead spot, negative a reversed flow. */
export function readReading(text: string): TypedNumber {
  return readTypedNumber(text, -LARGEST, LARGEST);
}

/** The longest that a sweep may last, as on the face sweep sheet. */
const LONGEST_S = 3600;

/** Reads the seconds of a sweep. */
export function readSeconds(text: string): TypedNumber {
  return readTypedNumber(text, 1, LONGEST_S);
}
