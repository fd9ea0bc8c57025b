import { numberAsText, toText } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { fn } from "../formula/function-spec.js";
import { ERROR, type Scalar, type Value } from "../formula/values.js";
import { eachValue } from "./each-value.js";

/** A complex number, and the letter that its text had. */
interface Complex {
  readonly re: number;
  readonly im: number;
  readonly unit?: "i" | "j" | undefined;
}

const NUMBER = String.raw`(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`;
const WHOLE = new RegExp(`^([+-]?${NUMBER})$`);
const IMAGINARY = new RegExp(`^([+-]?${NUMBER}|[+-]?)([ij])$`);
const BOTH = new RegExp(`^([+-]?${NUMBER})([+-](?:${NUMBER})?)([ij])$`);

const factor = (text: string) => (text === "" || text === "+" ? 1 : text === "-" ? -1 : Number(text));

function read(value: Scalar): Complex {
  if (typeof value === "number") return { re: value, im: 0 };
  if (typeof value === "boolean") throw ERROR.value;
  const text = toText(value).trim();
  if (text === "") return { re: 0, im: 0 };
  const [whole] = WHOLE.exec(text) ?? [];
  if (whole !== undefined) return { re: Number(whole), im: 0 };
  const [, im, letter] = IMAGINARY.exec(text) ?? [];
  if (im !== undefined) return { re: 0, im: factor(im), unit: letter as "i" | "j" };
  const [, re, other, unit] = BOTH.exec(text) ?? [];
  if (re === undefined || other === undefined) throw ERROR.number;
  return { re: Number(re), im: factor(other), unit: unit as "i" | "j" };
}

function write({ re, im, unit = "i" }: Complex): string {
  if (!Number.isFinite(re) || !Number.isFinite(im)) throw ERROR.number;
  if (im === 0) return numberAsText(re);
  const size = im === 1 ? "" : im === -1 ? "-" : numberAsText(im);
  if (re === 0) return size + unit;
  return `${numberAsText(re)}${im > 0 ? "+" : ""}${size}${unit}`;
}

const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });

function over(a: Complex, b: Complex): Complex {
  const size = b.re * b.re + b.im * b.im;
  if (size === 0) throw ERROR.number;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
}

function angle({ re, im }: Complex): number {
  if (re === 0 && im === 0) throw ERROR.division;
  return Math.atan2(im, re);
}

function log(z: Complex): Complex {
  if (z.re === 0 && z.im === 0) throw ERROR.number;
  return { re: Math.log(Math.hypot(z.re, z.im)), im: Math.atan2(z.im, z.re) };
}

const scaled = (z: Complex, by: number): Complex => ({ re: z.re * by, im: z.im * by });
const exp = ({ re, im }: Complex): Complex => ({ re: Math.exp(re) * Math.cos(im), im: Math.exp(re) * Math.sin(im) });
const sin = ({ re, im }: Complex): Complex => ({ re: Math.sin(re) * Math.cosh(im), im: Math.cos(re) * Math.sinh(im) });
const cos = ({ re, im }: Complex): Complex => ({ re: Math.cos(re) * Math.cosh(im), im: -Math.sin(re) * Math.sinh(im) });
const sinh = ({ re, im }: Complex): Complex => ({ re: Math.sinh(re) * Math.cos(im), im: Math.cosh(re) * Math.sin(im) });
const cosh = ({ re, im }: Complex): Complex => ({ re: Math.cosh(re) * Math.cos(im), im: Math.sinh(re) * Math.sin(im) });
const ONE: Complex = { re: 1, im: 0 };

/** Up to this power a number is multiplied by itself, which keeps whole numbers whole. */
const MOST_TIMES = 64;

function power(z: Complex, exponent: number): Complex {
  if (z.re === 0 && z.im === 0) {
    if (exponent <= 0) throw ERROR.number;
    return z;
  }
  if (Number.isInteger(exponent) && Math.abs(exponent) <= MOST_TIMES) {
    let product = ONE;
    for (let step = 0; step < Math.abs(exponent); step += 1) product = times(product, z);
    return exponent < 0 ? over(ONE, product) : product;
  }
  const size = Math.hypot(z.re, z.im) ** exponent;
  const turn = angle(z) * exponent;
  return { re: size * Math.cos(turn), im: size * Math.sin(turn) };
}

function root({ re, im }: Complex): Complex {
  const size = Math.sqrt((Math.abs(re) + Math.hypot(re, im)) / 2);
  if (size === 0) return { re: 0, im: 0 };
  const other = Math.abs(im) / (2 * size);
  const sign = im < 0 ? -1 : 1;
  return re >= 0 ? { re: size, im: sign * other } : { re: other, im: sign * size };
}

const ofOne: Readonly<Record<string, (z: Complex) => Complex>> = {
  IMCONJUGATE: ({ re, im }) => ({ re, im: -im }),
  IMEXP: exp,
  IMLN: log,
  IMLOG10: (z) => scaled(log(z), Math.LOG10E),
  IMLOG2: (z) => scaled(log(z), Math.LOG2E),
  IMSQRT: root,
  IMSIN: sin,
  IMCOS: cos,
  IMTAN: (z) => over(sin(z), cos(z)),
  IMCOT: (z) => over(cos(z), sin(z)),
  IMSEC: (z) => over(ONE, cos(z)),
  IMCSC: (z) => over(ONE, sin(z)),
  IMSINH: sinh,
  IMCOSH: cosh,
  IMSECH: (z) => over(ONE, cosh(z)),
  IMCSCH: (z) => over(ONE, sinh(z)),
};

function all(given: readonly Value[], context: Context): Complex[] {
  const numbers: Complex[] = [];
  for (const value of given) {
    eachValue(value, context, (scalar) => {
      if (scalar !== null) numbers.push(read(scalar));
    });
  }
  return numbers;
}

/** The letter of all of them, where they have any: i and j together are refused. */
function unitOf(numbers: readonly Complex[]): Complex["unit"] {
  const units = new Set(numbers.flatMap(({ unit }) => unit ?? []));
  if (units.size > 1) throw ERROR.value;
  return [...units][0];
}

export const COMPLEX = [
  fn("COMPLEX", "n n t~", (_, re, im, unit = "i") => {
    if (unit !== "i" && unit !== "j") throw ERROR.value;
    return write({ re, im, unit });
  }),
  ...Object.entries(ofOne).map(([name, calculate]) =>
    fn(name, "v", (_, value) => {
      const z = read(value);
      return write({ ...calculate(z), unit: z.unit });
    }),
  ),
  fn("IMREAL", "v", (_, value) => read(value).re),
  fn("IMAGINARY", "v", (_, value) => read(value).im),
  fn("IMABS", "v", (_, value) => Math.hypot(read(value).re, read(value).im)),
  fn("IMARGUMENT", "v", (_, value) => angle(read(value))),
  fn("IMPOWER", "v n", (_, value, exponent) => write({ ...power(read(value), exponent), unit: read(value).unit })),
  fn("IMDIV", "v v", (_, one, other) =>
    write({ ...over(read(one), read(other)), unit: unitOf([read(one), read(other)]) }),
  ),
  fn("IMSUB", "v v", (_, one, other) => {
    const [a, b] = [read(one), read(other)];
    return write({ re: a.re - b.re, im: a.im - b.im, unit: unitOf([a, b]) });
  }),
  fn("IMSUM", "r*", (context, ...given) => {
    const numbers = all(given, context);
    const total = numbers.reduce((a, b) => ({ re: a.re + b.re, im: a.im + b.im }), { re: 0, im: 0 });
    return write({ re: total.re, im: total.im, unit: unitOf(numbers) });
  }),
  fn("IMPRODUCT", "r*", (context, ...given) => {
    const numbers = all(given, context);
    return write({ ...numbers.reduce(times, ONE), unit: unitOf(numbers) });
  }),
];
