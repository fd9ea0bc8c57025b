import { CellError } from "../../cells/index.js";
import { toNumber, toText } from "./coerce.js";
import { compareScalars } from "./compare.js";
import type { BinaryOperator } from "./syntax.js";
import { ERROR, finite, type Scalar } from "./values.js";

/** What is left of a sum or difference below this, of the larger number, is the noise of binary fractions. */
const NOISE = 2 ** -48;

/**
 * Adds two numbers; what should be 0 and is not for binary fractions alone is 0.
 *
 * @source Microsoft, "Floating-point arithmetic may give inaccurate results in Excel": a sum or difference at or very
 * close to zero is set to 0
 */
export function add(one: number, other: number): number {
  const sum = one + other;
  return sum !== 0 && Math.abs(sum) < Math.abs(one) * NOISE ? 0 : sum;
}

export function power(base: number, exponent: number): Scalar {
  if (base === 0 && exponent === 0) return ERROR.number;
  if (base === 0 && exponent < 0) return ERROR.division;
  if (base < 0 && !Number.isInteger(exponent)) {
    const root = Math.round(1 / exponent);
    // An odd root of a negative number is a number: (-8)^(1/3).
    if (root % 2 !== 0 && 1 / root === exponent) return finite(-((-base) ** exponent));
    return ERROR.number;
  }
  return finite(base ** exponent);
}

function arithmetic(operator: "+" | "-" | "*" | "/" | "^", one: number, other: number): Scalar {
  if (operator === "+") return finite(add(one, other));
  if (operator === "-") return finite(add(one, -other));
  if (operator === "*") return finite(one * other);
  if (operator === "/") return other === 0 ? ERROR.division : finite(one / other);
  return power(one, other);
}

function holds(operator: BinaryOperator, order: number): boolean {
  if (operator === "=") return order === 0;
  if (operator === "<>") return order !== 0;
  if (operator === "<") return order < 0;
  if (operator === ">") return order > 0;
  return operator === "<=" ? order <= 0 : order >= 0;
}

/**
 * Applies an operator to two values. What fails first, from left to right, is the result: `"Hall"+#DIV/0!` is #VALUE!.
 *
 * @source Results that Excel stored, in operator.xls among the samples of Gnumeric 1.12.55
 */
export function applyOperator(operator: BinaryOperator, one: Scalar, other: Scalar): Scalar {
  if (one instanceof CellError) return one;
  try {
    if (operator === "&") return toText(one) + toText(other);
    if (operator === "+" || operator === "-" || operator === "*" || operator === "/" || operator === "^") {
      return arithmetic(operator, toNumber(one), toNumber(other));
    }
    return other instanceof CellError ? other : holds(operator, compareScalars(one, other));
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}

/** Applies a sign or the percent mark. A plus leaves what it stands before as it is. */
export function applySign(operator: "-" | "+" | "%", value: Scalar): Scalar {
  if (operator === "+" || value instanceof CellError) return value;
  try {
    return operator === "-" ? finite(-toNumber(value)) : toNumber(value) / 100;
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}
