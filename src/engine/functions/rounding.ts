import { fn } from "../formula/function-spec.js";
import { ERROR } from "../formula/values.js";

const DIGITS = 15;

/** Takes the noise of binary fractions off: 444.00000000000006 is 444. */
export function clean(number: number): number {
  return Number.isFinite(number) ? Number(number.toPrecision(DIGITS)) : number;
}

function toPlaces(number: number, places: number, round: (number: number) => number): number {
  const digits = Math.trunc(places);
  if (number === 0 || digits > 300) return number;
  if (digits < -308) return round(number / Number.MAX_VALUE) === 0 ? 0 : ERROR_FAR;
  if (digits >= 0) {
    const scale = 10 ** digits;
    const scaled = number * scale;
    return Number.isFinite(scaled) ? round(clean(scaled)) / scale : number;
  }
  const scale = 10 ** -digits;
  return round(clean(number / scale)) * scale;
}

const ERROR_FAR = Number.POSITIVE_INFINITY;

const away = (number: number) => Math.sign(number) * Math.ceil(Math.abs(number));
const half = (number: number) => Math.sign(number) * Math.floor(clean(Math.abs(number) + 0.5));

export function round(number: number, places: number): number {
  return toPlaces(number, places, half);
}

export function roundDown(number: number, places: number): number {
  return toPlaces(number, places, Math.trunc);
}

export function roundUp(number: number, places: number): number {
  return toPlaces(number, places, away);
}

/** A multiple of a step, chosen by a function of how many steps a number is. */
function stepped(number: number, step: number, choose: (steps: number) => number): number {
  return step === 0 ? 0 : choose(clean(number / step)) * step;
}

function ceiling(number: number, step: number) {
  if (number > 0 && step < 0) throw ERROR.number;
  return stepped(number, step, Math.ceil);
}

function floor(number: number, step: number) {
  if (number === 0) return 0;
  if (step === 0) throw ERROR.division;
  if (number > 0 && step < 0) throw ERROR.number;
  return stepped(number, step, Math.floor);
}

const ceilingMath = (number: number, step: number, mode: number) =>
  stepped(number, Math.abs(step), number < 0 && mode !== 0 ? Math.floor : Math.ceil);
const floorMath = (number: number, step: number, mode: number) =>
  stepped(number, Math.abs(step), number < 0 && mode !== 0 ? Math.ceil : Math.floor);

/**
 * MROUND. Only the rest of the division is freed of the noise of binary fractions, so that halves of long numbers go either
 * way, as documented: MROUND(6.05,0.1) is 6 and MROUND(7.05,0.1) is 7.1.
 *
 * @source Microsoft, MROUND function: "Known Limitations"; results that users read in Excel for MROUND(0.15,0.1), 0.2, and
 * MROUND(0.35,0.1), 0.4
 */
function multiple(number: number, step: number) {
  if (number === 0 || step === 0) return 0;
  if (Math.sign(number) !== Math.sign(step)) throw ERROR.number;
  const steps = number / step;
  const whole = Math.trunc(steps);
  return (clean(steps - whole) >= 0.5 ? whole + 1 : whole) * step;
}

const toPairs = (number: number, rest: number) => {
  const size = Math.ceil(clean(Math.abs(number)));
  return Math.sign(number) * (size % 2 === rest ? size : size + 1);
};

/** @source ECMA-376-1:2016, section 18.17.7; the newer ones in Microsoft's function reference */
export const ROUNDING = [
  fn("ROUND", "n n", (_, number, places) => round(number, places)),
  fn("ROUNDUP", "n n", (_, number, places) => roundUp(number, places)),
  fn("ROUNDDOWN", "n n", (_, number, places) => roundDown(number, places)),
  fn("TRUNC", "n n?", (_, number, places = 0) => roundDown(number, places)),
  fn("INT", "n", (_, number) => Math.floor(clean(number))),
  fn("CEILING", "n n", (_, number, step) => ceiling(number, step)),
  fn("FLOOR", "n n", (_, number, step) => floor(number, step)),
  fn("CEILING.MATH", "n n~ n~", (_, number, step = 1, mode = 0) => ceilingMath(number, step, mode)),
  fn("FLOOR.MATH", "n n~ n~", (_, number, step = 1, mode = 0) => floorMath(number, step, mode)),
  fn("CEILING.PRECISE", "n n~", (_, number, step = 1) => ceilingMath(number, step, 0)),
  fn("ISO.CEILING", "n n~", (_, number, step = 1) => ceilingMath(number, step, 0)),
  fn("FLOOR.PRECISE", "n n~", (_, number, step = 1) => floorMath(number, step, 0)),
  fn("MROUND", "n n", (_, number, step) => multiple(number, step)),
  fn("EVEN", "n", (_, number) => toPairs(number, 0)),
  fn("ODD", "n", (_, number) => (number === 0 ? 1 : toPairs(number, 1))),
];
