import { CellError } from "../../cells/index.js";
import { toNumber } from "../formula/coerce.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar } from "../formula/values.js";

/** Digits of ten places; the first bit of forty, thirty or ten tells a negative number. */
const BASES = { BIN: { base: 2, bits: 10 }, OCT: { base: 8, bits: 30 }, HEX: { base: 16, bits: 40 } } as const;

type Base = keyof typeof BASES;

function digitsOf(value: Scalar): string {
  if (value instanceof CellError) throw value;
  if (typeof value === "boolean") throw ERROR.value;
  return value === null ? "0" : String(value).trim();
}

function read(value: Scalar, name: Base): number {
  const { base, bits } = BASES[name];
  const digits = digitsOf(value).toUpperCase();
  const allowed = "0123456789ABCDEF".slice(0, base);
  if (digits.length > 10 || [...digits].some((digit) => !allowed.includes(digit))) throw ERROR.number;
  const number = digits === "" ? 0 : Number.parseInt(digits, base);
  return number >= 2 ** (bits - 1) ? number - 2 ** bits : number;
}

function write(number: number, name: Base, places: number | undefined): string {
  const { base, bits } = BASES[name];
  const whole = Math.trunc(number);
  const half = 2 ** (bits - 1);
  if (whole < -half || whole >= half) throw ERROR.number;
  if (whole < 0) return (whole + 2 ** bits).toString(base).toUpperCase();
  const digits = whole.toString(base).toUpperCase();
  if (places === undefined) return digits;
  const width = Math.trunc(places);
  if (width < digits.length || width > 10 || width < 1) throw ERROR.number;
  return digits.padStart(width, "0");
}

function numberOf(value: Scalar): number {
  if (typeof value === "boolean") throw ERROR.value;
  return toNumber(value);
}

/** Operations on bits of numbers up to 48 bits long. */
const MOST_BITS = 2 ** 48;

function bits(number: number): bigint {
  if (number < 0 || number >= MOST_BITS || !Number.isInteger(number)) throw ERROR.number;
  return BigInt(number);
}

function shifted(number: number, by: number): number {
  const places = Math.trunc(by);
  if (Math.abs(places) > 53) throw ERROR.number;
  const result = places >= 0 ? bits(number) << BigInt(places) : bits(number) >> BigInt(-places);
  if (result >= BigInt(MOST_BITS)) throw ERROR.number;
  return Number(result);
}

const ROMAN: readonly (readonly [number, string])[] = [
  [1000, "M"],
  [900, "CM"],
  [500, "D"],
  [400, "CD"],
  [100, "C"],
  [90, "XC"],
  [50, "L"],
  [40, "XL"],
  [10, "X"],
  [9, "IX"],
  [5, "V"],
  [4, "IV"],
  [1, "I"],
];

/** Shorter ways to write, that a form from 1 to 4 allows one after the other. */
const SHORTER: readonly (readonly (readonly [number, string])[])[] = [
  [],
  [
    [450, "LD"],
    [950, "LM"],
    [45, "VL"],
    [95, "VC"],
  ],
  [
    [490, "XD"],
    [990, "XM"],
    [49, "IL"],
    [99, "IC"],
  ],
  [
    [495, "VD"],
    [995, "VM"],
  ],
  [
    [499, "ID"],
    [999, "IM"],
  ],
];

function roman(number: number, form: number): string {
  let left = Math.trunc(number);
  const ways = Math.trunc(form);
  if (left < 0 || left > 3999 || ways < 0 || ways > 4) throw ERROR.value;
  const signs = [...ROMAN, ...SHORTER.slice(0, ways + 1).flat()].sort(([one], [other]) => other - one);
  let text = "";
  for (const [value, sign] of signs) {
    while (left >= value) {
      text += sign;
      left -= value;
    }
  }
  return text;
}

function arabic(text: string): number {
  const letters: Readonly<Record<string, number>> = { M: 1000, D: 500, C: 100, L: 50, X: 10, V: 5, I: 1 };
  const word = text.trim().toUpperCase();
  const isNegative = word.startsWith("-");
  const values = [...(isNegative ? word.slice(1) : word)].map((letter) => letters[letter]);
  if (values.some((value) => value === undefined) || word.length > 255) throw ERROR.value;
  let total = 0;
  values.forEach((value = 0, index) => {
    total += value < (values[index + 1] ?? 0) ? -value : value;
  });
  return isNegative ? -total : total;
}

function decimal(text: string, base: number): number {
  const radix = Math.trunc(base);
  if (radix < 2 || radix > 36) throw ERROR.number;
  const digits = text.trim().toUpperCase();
  const known = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ".slice(0, radix);
  if ([...digits].some((digit) => !known.includes(digit)) || digits.length > 255) throw ERROR.number;
  return [...digits].reduce((total, digit) => total * radix + known.indexOf(digit), 0);
}

function inBase(number: number, base: number, places: number): string {
  const [whole, radix, width] = [Math.trunc(number), Math.trunc(base), Math.trunc(places)];
  if (whole < 0 || whole >= 2 ** 53 || radix < 2 || radix > 36 || width < 0 || width > 255) throw ERROR.number;
  return whole.toString(radix).toUpperCase().padStart(width, "0");
}

const names = Object.keys(BASES) as readonly Base[];

export const BASE_NUMBERS = [
  ...names.map((from) => fn(`${from}2DEC`, "v", (_, value) => read(value, from))),
  ...names.map((to) => fn(`DEC2${to}`, "v n?", (_, value, places) => write(numberOf(value), to, places))),
  ...names.flatMap((from) =>
    names
      .filter((to) => to !== from)
      .map((to) => fn(`${from}2${to}`, "v n?", (_, value, places) => write(read(value, from), to, places))),
  ),
  fn("BITAND", "n n", (_, one, other) => Number(bits(one) & bits(other))),
  fn("BITOR", "n n", (_, one, other) => Number(bits(one) | bits(other))),
  fn("BITXOR", "n n", (_, one, other) => Number(bits(one) ^ bits(other))),
  fn("BITLSHIFT", "n n", (_, number, by) => shifted(number, by)),
  fn("BITRSHIFT", "n n", (_, number, by) => shifted(number, -by)),
  fn("ROMAN", "n v~", (_, number, form = 0) => roman(number, form === true ? 0 : form === false ? 4 : toNumber(form))),
  fn("ARABIC", "t", (_, text) => arabic(text)),
  fn("DECIMAL", "t n", (_, text, base) => decimal(text, base)),
  fn("BASE", "n n n?", (_, number, base, places = 0) => inBase(number, base, places)),
];
