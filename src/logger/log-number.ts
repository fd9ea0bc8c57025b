import { LOG_LIMITS } from "./log-limits.js";

/** Which sign stands before the decimals. */
export type DecimalMark = "point" | "comma";

const PATTERNS: Readonly<Record<DecimalMark, RegExp>> = {
  point: /^[+-]?(?:\d+|\d{1,3}(?:[,'’ \u00a0\u202f]\d{3})+)?(?:\.\d*)?(?:[eE][+-]?\d+)?$/,
  comma: /^[+-]?(?:\d+|\d{1,3}(?:[.'’ \u00a0\u202f]\d{3})+)?(?:,\d*)?(?:[eE][+-]?\d+)?$/,
};

const SIGNS: Readonly<Record<DecimalMark, RegExp>> = { point: /[,'’\s]/g, comma: /[.'’\s]/g };

/** Reads a number as written with a decimal mark, thousands in groups of three; null where it is none. */
export function logNumber(text: string, decimal: DecimalMark): number | null {
  if (text.length > LOG_LIMITS.fieldCharacters) return null;
  const plain = text.trim().replace(/^[−–]/, "-");
  if (!/\d/.test(plain) || !PATTERNS[decimal].test(plain)) return null;
  const digits = plain.replace(SIGNS[decimal], "").replace(",", ".");
  const value = Number(digits);
  return Number.isFinite(value) ? value : null;
}

/** Whether a text is a number in one way of writing or the other. */
export function isNumberLike(text: string): boolean {
  return logNumber(text, "point") !== null || logNumber(text, "comma") !== null;
}
