import * as numfmt from /* webpackDefer: true */ "numfmt";
import { CellError } from "../../cells/index.js";
import { toText } from "../formula/coerce.js";
import { fn } from "../formula/function-spec.js";
import { numberInText } from "../formula/text-to-number.js";
import { ERROR, type Scalar } from "../formula/values.js";

/** Longer formats say nothing more. */
const LONGEST = 255;

/** Patterns that would show the hair itself. */
const MANY_DECIMALS = /\.[0#?]{12}/;

/**
 * A number of 15 digits, a hair larger than the binary fraction that stands for it, so that a half of the decimal number is
 * rounded up: 1.005 with two decimals is 1.01.
 *
 * @source Microsoft, "Floating-point arithmetic may give inaccurate results in Excel": 15 significant digits; that a shown
 * half of them goes up: results that users read in Excel (github.com/dream-num/univer, issue 7244: 10.155, 1.005, 2.155)
 */
function asTyped(number: number, pattern: string): number {
  const typed = Number(number.toPrecision(15));
  return Number.isInteger(typed) || MANY_DECIMALS.test(pattern) ? typed : typed * (1 + Number.EPSILON);
}

function formatted(value: Scalar, pattern: string): string {
  if (value instanceof CellError) throw value;
  if (pattern === "") return "";
  if (pattern.length > LONGEST) throw ERROR.value;
  if (typeof value === "boolean") return toText(value);
  const number = typeof value === "string" ? numberInText(value) : (value ?? 0);
  if (number === undefined) return formattedText(value as string, pattern);
  try {
    return numfmt.format(pattern, asTyped(number, pattern), { throws: true, dateSpanLarge: false });
  } catch {
    throw ERROR.value; // The library's own words for a format that it cannot read tell no more.
  }
}

function formattedText(text: string, pattern: string): string {
  try {
    return numfmt.format(pattern, text, { throws: true });
  } catch {
    throw ERROR.value;
  }
}

/** Reads a number whose marks are told. */
function numberValue(text: string, decimal: string, group: string): number {
  const [point = "."] = decimal;
  const [comma = ","] = group;
  if (text.trim() === "") return 0;
  const percents = /%*$/.exec(text.replace(/\s+/g, ""))?.[0].length ?? 0;
  const bare = text.replace(/\s+/g, "").slice(0, -percents || undefined);
  const [whole = "", ...rest] = bare.split(point);
  if (rest.length > 1 || rest.join("").includes(comma)) throw ERROR.value;
  const digits = whole.replaceAll(comma, "") + (rest.length === 1 ? `.${rest[0]}` : "");
  const number = numberInText(digits);
  if (number === undefined) throw ERROR.value;
  return number / 100 ** percents;
}

export const NUMBER_FORMAT = [
  fn("TEXT", "v t", (_, value, pattern) => formatted(value, pattern)),
  fn("VALUE", "v", (_, value) => {
    if (typeof value === "number") return value;
    if (value === null) return 0;
    const number = typeof value === "string" ? numberInText(value) : undefined;
    if (number === undefined) throw new CellError("#VALUE!", `"${toText(value).slice(0, 40)}" is not a number.`);
    return number;
  }),
  fn("NUMBERVALUE", "t t~ t~", (_, text, decimal = ".", group = ",") => numberValue(text, decimal, group)),
];
