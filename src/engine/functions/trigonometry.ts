import { fn } from "../formula/function-spec.js";
import { ERROR } from "../formula/values.js";
import { clean } from "./rounding.js";

/** Above this an angle no longer says where in the circle it is. */
const LARGEST_ANGLE = 2 ** 27 * 1e10;

const angle = (radians: number) => {
  if (Math.abs(radians) >= LARGEST_ANGLE) throw ERROR.number;
  return radians;
};

const over = (below: number) => {
  if (below === 0) throw ERROR.division;
  return 1 / below;
};

const within = (number: number, least: number, most: number) => {
  if (number < least || number > most) throw ERROR.number;
  return number;
};

const oneArgument: Readonly<Record<string, (number: number) => number>> = {
  SIN: (x) => Math.sin(angle(x)),
  COS: (x) => Math.cos(angle(x)),
  TAN: (x) => Math.tan(angle(x)),
  COT: (x) => over(Math.tan(angle(x))),
  SEC: (x) => over(Math.cos(angle(x))),
  CSC: (x) => over(Math.sin(angle(x))),
  ASIN: (x) => Math.asin(within(x, -1, 1)),
  ACOS: (x) => Math.acos(within(x, -1, 1)),
  ATAN: Math.atan,
  // From 0 to pi, so that it has no jump at 0.
  ACOT: (x) => Math.PI / 2 - Math.atan(x),
  SINH: Math.sinh,
  COSH: Math.cosh,
  TANH: Math.tanh,
  COTH: (x) => over(Math.tanh(x)),
  SECH: (x) => over(Math.cosh(x)),
  CSCH: (x) => over(Math.sinh(x)),
  ASINH: Math.asinh,
  ACOSH: (x) => Math.acosh(within(x, 1, Number.MAX_VALUE)),
  ATANH: (x) => {
    if (Math.abs(x) >= 1) throw ERROR.number;
    return Math.atanh(x);
  },
  ACOTH: (x) => {
    if (Math.abs(x) <= 1) throw ERROR.number;
    return Math.atanh(1 / x);
  },
  RADIANS: (x) => (x * Math.PI) / 180,
  DEGREES: (x) => clean((x * 180) / Math.PI),
};

export const TRIGONOMETRY = [
  ...Object.entries(oneArgument).map(([name, calculate]) => fn(name, "n", (_, number) => calculate(number))),
  fn("ATAN2", "n n", (_, x, y) => {
    if (x === 0 && y === 0) throw ERROR.division;
    return Math.atan2(y, x);
  }),
];
