import * as numfmt from /* webpackDefer: true */ "numfmt";

/** What most texts that hold a number look like; the rest, dates and currencies among it, is left to the library. */
const PLAIN = /^[ ]*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,4})?[ ]*$/;

/** Longer texts hold no number. */
const LONGEST = 64;

/** A whole number and a fraction, `1 1/2`, or digits in threes with a comma after each. */
const FRACTION = /^[ ]*([+-]?)(\d+) (\d{1,7})\/(\d{1,7})[ ]*$/;
const BAD_THOUSANDS = /\d,\d{0,2}(?!\d)|,\d{4}|^\s*,/;

/**
 * Reads a text as a number the way a cell of an American workbook would: thousands, percent, dollars, dates, times.
 *
 * @returns undefined for a text that is no number
 */
export function numberInText(text: string): number | undefined {
  if (PLAIN.test(text)) {
    const number = Number(text);
    return Number.isFinite(number) ? number : undefined;
  }
  if (text.length > LONGEST || !/\d/.test(text)) return undefined;
  const [, sign, whole, over, under] = FRACTION.exec(text) ?? [];
  if (under !== undefined) {
    return Number(under) === 0 ? undefined : (sign === "-" ? -1 : 1) * (Number(whole) + Number(over) / Number(under));
  }
  const isDate = /[a-z:/]|\d-\d/i.test(text);
  if (!isDate && BAD_THOUSANDS.test(text)) return undefined;
  const read = numfmt.parseValue(text.trim());
  return typeof read?.v === "number" && Number.isFinite(read.v) ? read.v : undefined;
}
