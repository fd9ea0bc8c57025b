import { CellError } from "../../cells/index.js";
import { fn } from "../formula/function-spec.js";
import { clean } from "./rounding.js";

type Units = Readonly<Record<string, number>>;

/** Units that take the prefixes of the SI. */
const METRIC = new Set([
  "g",
  "u",
  "m",
  "ang",
  "Picapt",
  "pc",
  "parsec",
  "ly",
  "s",
  "sec",
  "Pa",
  "p",
  "atm",
  "at",
  "mmHg",
  "N",
  "dyn",
  "dy",
  "J",
  "e",
  "c",
  "cal",
  "eV",
  "ev",
  "Wh",
  "wh",
  "W",
  "w",
  "T",
  "ga",
  "l",
  "L",
  "lt",
  "m/s",
  "m/sec",
  "m/h",
  "m/hr",
  "ar",
  "m2",
  "m^2",
  "m3",
  "m^3",
  "bit",
  "byte",
  "K",
  "kel",
]);

const FOOT = 0.3048;
const INCH = FOOT / 12;
const YARD = FOOT * 3;
const MILE = FOOT * 5280;
const SURVEY_MILE = (5280 * 1200) / 3937;
const NAUTICAL = 1852;
const LIGHT_YEAR = 9460730472580800;
const PICA = INCH / 72;
const GALLON = 231 * INCH ** 3;
const UK_GALLON = 0.00454609;
const POUND = 453.59237;
const DAY = 86_400;
const POUND_FORCE = (POUND / 1000) * 9.80665;
const HORSEPOWER = 550 * FOOT * POUND_FORCE;
const cubed = (length: number) => length ** 3;
const squared = (length: number) => length ** 2;

/** @source Factors: NIST Special Publication 811, appendix B.8; names: Microsoft's reference of CONVERT */
const KINDS: readonly Units[] = [
  {
    g: 1,
    sg: (POUND * 9.80665) / FOOT,
    lbm: POUND,
    u: 1.66053100460465e-24,
    ozm: POUND / 16,
    grain: POUND / 7000,
    cwt: POUND * 100,
    shweight: POUND * 100,
    uk_cwt: POUND * 112,
    lcwt: POUND * 112,
    hweight: POUND * 112,
    stone: POUND * 14,
    ton: POUND * 2000,
    uk_ton: POUND * 2240,
    LTON: POUND * 2240,
    brton: POUND * 2240,
  },
  {
    m: 1,
    mi: MILE,
    Nmi: NAUTICAL,
    in: INCH,
    ft: FOOT,
    yd: YARD,
    ang: 1e-10,
    ell: 45 * INCH,
    ly: LIGHT_YEAR,
    parsec: 3.0856775812815532e16,
    pc: 3.0856775812815532e16,
    Picapt: PICA,
    Pica: PICA,
    pica: PICA * 12,
    survey_mi: SURVEY_MILE,
  },
  { yr: 365.25 * DAY, day: DAY, d: DAY, hr: 3600, mn: 60, min: 60, sec: 1, s: 1 },
  {
    Pa: 1,
    p: 1,
    atm: 101_325,
    at: 101_325,
    mmHg: 101_325 / 760,
    psi: POUND_FORCE / squared(INCH),
    Torr: 101_325 / 760,
  },
  { N: 1, dyn: 1e-5, dy: 1e-5, lbf: POUND_FORCE, pond: 0.00980665 },
  {
    J: 1,
    e: 1e-7,
    c: 4.184,
    cal: 4.1868,
    eV: 1.60217646e-19,
    ev: 1.60217646e-19,
    HPh: HORSEPOWER * 3600,
    hh: HORSEPOWER * 3600,
    Wh: 3600,
    wh: 3600,
    flb: POUND_FORCE * FOOT,
    BTU: 1055.05585262,
    btu: 1055.05585262,
  },
  { HP: HORSEPOWER, h: HORSEPOWER, W: 1, w: 1, PS: 75 * 9.80665 },
  { T: 1, ga: 1e-4 },
  {
    tsp: GALLON / 768,
    tspm: 5e-6,
    tbs: GALLON / 256,
    oz: GALLON / 128,
    cup: GALLON / 16,
    pt: GALLON / 8,
    us_pt: GALLON / 8,
    uk_pt: UK_GALLON / 8,
    qt: GALLON / 4,
    uk_qt: UK_GALLON / 4,
    gal: GALLON,
    uk_gal: UK_GALLON,
    l: 0.001,
    L: 0.001,
    lt: 0.001,
    ang3: 1e-30,
    "ang^3": 1e-30,
    barrel: GALLON * 42,
    bushel: 2150.42 * cubed(INCH),
    ft3: cubed(FOOT),
    "ft^3": cubed(FOOT),
    in3: cubed(INCH),
    "in^3": cubed(INCH),
    ly3: cubed(LIGHT_YEAR),
    "ly^3": cubed(LIGHT_YEAR),
    m3: 1,
    "m^3": 1,
    mi3: cubed(MILE),
    "mi^3": cubed(MILE),
    yd3: cubed(YARD),
    "yd^3": cubed(YARD),
    Nmi3: cubed(NAUTICAL),
    "Nmi^3": cubed(NAUTICAL),
    Picapt3: cubed(PICA),
    "Picapt^3": cubed(PICA),
    Pica3: cubed(PICA),
    "Pica^3": cubed(PICA),
    GRT: 100 * cubed(FOOT),
    regton: 100 * cubed(FOOT),
    MTON: 40 * cubed(FOOT),
  },
  {
    uk_acre: 4840 * squared(YARD),
    us_acre: squared(SURVEY_MILE) / 640,
    "ang^2": 1e-20,
    ang2: 1e-20,
    ar: 100,
    ft2: squared(FOOT),
    "ft^2": squared(FOOT),
    ha: 10_000,
    in2: squared(INCH),
    "in^2": squared(INCH),
    ly2: squared(LIGHT_YEAR),
    "ly^2": squared(LIGHT_YEAR),
    m2: 1,
    "m^2": 1,
    Morgen: 2500,
    mi2: squared(MILE),
    "mi^2": squared(MILE),
    Nmi2: squared(NAUTICAL),
    "Nmi^2": squared(NAUTICAL),
    Picapt2: squared(PICA),
    "Picapt^2": squared(PICA),
    Pica2: squared(PICA),
    "Pica^2": squared(PICA),
    yd2: squared(YARD),
    "yd^2": squared(YARD),
  },
  { bit: 1, byte: 8 },
  {
    admkn: 0.514773333333333,
    kn: NAUTICAL / 3600,
    "m/h": 1 / 3600,
    "m/hr": 1 / 3600,
    "m/s": 1,
    "m/sec": 1,
    mph: MILE / 3600,
  },
];

const PREFIXES: Units = {
  Y: 1e24,
  Z: 1e21,
  E: 1e18,
  P: 1e15,
  T: 1e12,
  G: 1e9,
  M: 1e6,
  k: 1e3,
  h: 1e2,
  da: 10,
  e: 10,
  d: 0.1,
  c: 0.01,
  m: 1e-3,
  u: 1e-6,
  n: 1e-9,
  p: 1e-12,
  f: 1e-15,
  a: 1e-18,
  z: 1e-21,
  y: 1e-24,
};
const BINARY: Units = {
  ki: 2 ** 10,
  Mi: 2 ** 20,
  Gi: 2 ** 30,
  Ti: 2 ** 40,
  Pi: 2 ** 50,
  Ei: 2 ** 60,
  Zi: 2 ** 70,
  Yi: 2 ** 80,
};

interface Unit {
  readonly kind: number;
  readonly factor: number;
}

function unitNamed(name: string): Unit | undefined {
  const plain = KINDS.findIndex((units) => Object.hasOwn(units, name));
  if (plain >= 0) return { kind: plain, factor: KINDS[plain]?.[name] as number };
  for (const [prefix, size] of [...Object.entries(BINARY), ...Object.entries(PREFIXES)]) {
    const rest = name.slice(prefix.length);
    if (!name.startsWith(prefix) || !METRIC.has(rest)) continue;
    if (prefix in BINARY && rest !== "bit" && rest !== "byte") continue;
    const kind = KINDS.findIndex((units) => Object.hasOwn(units, rest));
    if (kind < 0) continue;
    const power = /2$/.test(rest) ? 2 : /3$/.test(rest) ? 3 : 1;
    return { kind, factor: size ** power * (KINDS[kind]?.[rest] as number) };
  }
  return undefined;
}

/** To kelvin: a factor and what is added. */
const TEMPERATURES: Readonly<Record<string, readonly [number, number]>> = {
  K: [1, 0],
  kel: [1, 0],
  C: [1, 273.15],
  cel: [1, 273.15],
  F: [5 / 9, 459.67 * (5 / 9)],
  fah: [5 / 9, 459.67 * (5 / 9)],
  Rank: [5 / 9, 0],
  Reau: [1.25, 273.15],
};

function converted(number: number, from: string, to: string): number {
  const [cold, warm] = [TEMPERATURES[from], TEMPERATURES[to]];
  if (cold !== undefined && warm !== undefined) {
    return from === to ? number : clean((number * cold[0] + cold[1] - warm[1]) / warm[0]);
  }
  const [one, other] = [unitNamed(from), unitNamed(to)];
  if (one === undefined || other === undefined || one.kind !== other.kind) {
    throw new CellError("#N/A", `There is no way from the unit "${from}" to "${to}".`);
  }
  return (number * one.factor) / other.factor;
}

export const CONVERT = [fn("CONVERT", "n t t", (_, number, from, to) => converted(number, from, to))];
