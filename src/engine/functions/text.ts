import { CellError } from "../../cells/index.js";
import { WORKBOOK_LIMITS } from "../../xlsx/index.js";
import { toText } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { hasWildcard, matchesPattern } from "./criterion.js";
import { eachValue } from "./each-value.js";
import { round } from "./rounding.js";

export function limited(text: string): string {
  if (text.length > WORKBOOK_LIMITS.textLength) {
    throw new CellError("#VALUE!", `A cell holds ${WORKBOOK_LIMITS.textLength} characters, and the result has more.`);
  }
  return text;
}

function counted(count: number): number {
  const cut = Math.trunc(count);
  if (cut < 0) throw ERROR.value;
  return cut;
}

function placed(place: number): number {
  const cut = Math.trunc(place);
  if (cut < 1) throw ERROR.value;
  return cut;
}

function find(wanted: string, text: string, from: number): number {
  const start = placed(from) - 1;
  if (start > text.length) throw ERROR.value;
  const at = text.indexOf(wanted, start);
  if (at < 0) throw ERROR.value;
  return at + 1;
}

/** Looks for a pattern anywhere in a text, in either case. */
function search(pattern: string, text: string, from: number, context: Context): number {
  const start = placed(from) - 1;
  if (start > text.length || (start === text.length && pattern !== "")) throw ERROR.value;
  if (!hasWildcard(pattern)) return find(pattern.toLowerCase(), text.toLowerCase(), from);
  const trimmed = pattern.replace(/\*+$/, (stars) => (pattern.endsWith(`~${stars}`) ? stars : ""));
  for (let at = start; at <= text.length; at += 1) {
    if (matchesPattern(text.slice(at), `${trimmed}*`, context)) return at + 1;
  }
  throw ERROR.value;
}

function substitute(text: string, old: string, fresh: string, which: number | undefined): string {
  if (which !== undefined && Math.trunc(which) < 1) throw ERROR.value;
  if (old === "") return text;
  if (which === undefined) {
    const count = text.split(old).length - 1;
    if (text.length + count * (fresh.length - old.length) > WORKBOOK_LIMITS.textLength)
      limited("".padEnd(WORKBOOK_LIMITS.textLength + 1));
    return text.replaceAll(old, () => fresh);
  }
  let at = -1;
  for (let seen = 0; seen < Math.trunc(which); seen += 1) {
    at = text.indexOf(old, at < 0 ? 0 : at + old.length);
    if (at < 0) return text;
  }
  return limited(text.slice(0, at) + fresh + text.slice(at + old.length));
}

function proper(text: string): string {
  return text.toLowerCase().replace(/\p{L}\p{M}*[\p{L}\p{M}]*/gu, (word) => {
    const [first = ""] = word;
    return first.toUpperCase() + word.slice(first.length);
  });
}

/** Spells a number with a fixed count of decimals and, unless they are unwanted, commas. */
export function fixed(number: number, decimals: number, hasNoCommas: boolean): string {
  const places = Math.trunc(decimals);
  if (places > 127) throw ERROR.value;
  const rounded = round(number, places);
  const [whole = "", rest] = plainDigits(Math.abs(rounded), Math.max(0, Math.min(places, 100))).split(".");
  const grouped = hasNoCommas ? whole : whole.replace(/\B(?=(?:\d{3})+$)/g, ",");
  return (rounded < 0 ? "-" : "") + grouped + (rest === undefined ? "" : `.${rest}`);
}

function plainDigits(size: number, places: number): string {
  if (size >= 1e21) return BigInt(size).toString() + (places > 0 ? `.${"0".repeat(places)}` : "");
  // Past 15 digits there is only the noise of binary fractions.
  const exact = Number(size.toPrecision(15));
  return (exact === size || Math.abs(exact - size) < size * 1e-14 ? exact : size).toFixed(places);
}

function dollars(number: number, decimals: number): string {
  const text = fixed(number, decimals, false);
  return text.startsWith("-") ? `($${text.slice(1)})` : `$${text}`;
}

function joined(given: readonly Value[], between: readonly string[], skipsEmpty: boolean, context: Context): string {
  const pieces: string[] = [];
  let length = 0;
  for (const value of given) {
    eachValue(value, context, (scalar) => {
      const text = toText(scalar);
      if (text === "" && skipsEmpty) return;
      length += text.length;
      if (length > WORKBOOK_LIMITS.textLength) limited("".padEnd(length));
      pieces.push(text);
    });
  }
  let text = pieces[0] ?? "";
  for (let index = 1; index < pieces.length; index += 1)
    text += (between[(index - 1) % between.length] ?? "") + pieces[index];
  return limited(text);
}

/** A character by its number in the code page that a spreadsheet program on Windows has, 1252. */
const WINDOWS = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ";

function character(code: number): string {
  const cut = Math.trunc(code);
  if (cut < 1 || cut > 255) throw ERROR.value;
  return cut >= 128 && cut < 160 ? (WINDOWS[cut - 128] as string) : String.fromCharCode(cut);
}

function codeOf(text: string): number {
  if (text === "") throw ERROR.value;
  const [letter = ""] = text;
  const windows = WINDOWS.indexOf(letter);
  if (windows >= 0) return 128 + windows;
  const code = letter.codePointAt(0) as number;
  return code < 256 ? code : 63;
}

function unicodeCharacter(code: number): string {
  const cut = Math.trunc(code);
  if (cut < 1 || cut > 0x10ffff) throw ERROR.value;
  if (cut >= 0xd800 && cut < 0xe000) throw ERROR.missing;
  return String.fromCodePoint(cut);
}

function spelled(value: Scalar, format: number): string {
  if (value instanceof CellError) return value.code;
  return typeof value === "string" && format === 1 ? `"${value.replaceAll('"', '""')}"` : toText(value);
}

const left = (text: string, count: number) => text.slice(0, counted(count));
const right = (text: string, count: number) => (counted(count) === 0 ? "" : text.slice(-counted(count)));
const middle = (text: string, from: number, count: number) =>
  text.slice(placed(from) - 1, placed(from) - 1 + counted(count));
const replaced = (text: string, from: number, count: number, fresh: string) =>
  limited(text.slice(0, placed(from) - 1) + fresh + text.slice(placed(from) - 1 + counted(count)));

/** In the writing systems of the sheets that this is for, a byte is a character. */
const andInBytes = <Spec>(name: string, make: (name: string) => Spec): readonly Spec[] => [
  make(name),
  make(`${name}B`),
];

export const TEXT = [
  ...andInBytes("LEN", (name) => fn(name, "t", (_, text) => text.length)),
  ...andInBytes("LEFT", (name) => fn(name, "t n?", (_, text, count = 1) => left(text, count))),
  ...andInBytes("RIGHT", (name) => fn(name, "t n?", (_, text, count = 1) => right(text, count))),
  ...andInBytes("MID", (name) => fn(name, "t n n", (_, text, from, count) => middle(text, from, count))),
  ...andInBytes("FIND", (name) => fn(name, "t t n?", (_, wanted, text, from = 1) => find(wanted, text, from))),
  ...andInBytes("SEARCH", (name) =>
    fn(name, "t t n?", (context, wanted, text, from = 1) => search(wanted, text, from, context)),
  ),
  ...andInBytes("REPLACE", (name) =>
    fn(name, "t n n t", (_, text, from, count, fresh) => replaced(text, from, count, fresh)),
  ),
  fn("SUBSTITUTE", "t t t n?", (_, text, old, fresh, which) => substitute(text, old, fresh, which)),
  fn("UPPER", "t", (_, text) => text.toUpperCase()),
  fn("LOWER", "t", (_, text) => text.toLowerCase()),
  fn("PROPER", "t", (_, text) => proper(text)),
  fn("TRIM", "t", (_, text) => text.replace(/ +/g, " ").replace(/^ | $/g, "")),
  // Characters without a picture, as a printer's control codes are.
  fn("CLEAN", "t", (_, text) => [...text].filter((letter) => letter >= " ").join("")),
  fn("EXACT", "t t", (_, one, other) => one === other),
  fn("REPT", "t n", (_, text, count) => {
    if (text.length * counted(count) > WORKBOOK_LIMITS.textLength) throw ERROR.value;
    return text.repeat(counted(count));
  }),
  fn("CONCATENATE", "t*", (_, ...texts) => limited(texts.join(""))),
  fn("CONCAT", "r*", (context, ...given) => joined(given, [""], false, context)),
  fn("TEXTJOIN", "r b r*", (context, between, skipsEmpty, ...given) => {
    const separators: string[] = [];
    eachValue(between, context, (scalar) => separators.push(toText(scalar)));
    return joined(given as Value[], separators, skipsEmpty, context);
  }),
  fn("T", "r", (context, value) => {
    let first: Scalar = null;
    let isFirst = true;
    eachValue(value, context, (scalar) => {
      if (isFirst) first = scalar;
      isFirst = false;
    });
    if ((first as Scalar) instanceof CellError) throw first;
    return typeof first === "string" ? first : "";
  }),
  fn("CHAR", "n", (_, code) => character(code)),
  fn("CODE", "t", (_, text) => codeOf(text)),
  fn("UNICHAR", "n", (_, code) => unicodeCharacter(code)),
  fn("UNICODE", "t", (_, text) => text.codePointAt(0) ?? ERROR.value),
  fn("FIXED", "n n~ b?", (_, number, decimals = 2, hasNoCommas = false) => fixed(number, decimals, hasNoCommas)),
  ...["DOLLAR", "USDOLLAR"].map((name) => fn(name, "n n~", (_, number, decimals = 2) => dollars(number, decimals))),
  fn("ASC", "t", (_, text) => text.normalize("NFKC")),
  fn("VALUETOTEXT", "e n?", (_, value, format = 0) => spelled(value, format)),
  fn("ARRAYTOTEXT", "r n?", (context, value, format = 0) => {
    const texts: string[] = [];
    eachValue(value, context, (scalar) => texts.push(spelled(scalar, format)));
    return limited(texts.join(", "));
  }),
];
