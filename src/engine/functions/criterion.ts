import { CellError } from "../../cells/index.js";
import { compareTexts, isSameNumber, isSameText } from "../formula/compare.js";
import type { Context } from "../formula/context.js";
import { numberInText } from "../formula/text-to-number.js";
import type { Scalar } from "../formula/values.js";

/** Whether a cell's value meets a criterion. */
export type Meets = (value: Scalar) => boolean;

const OPERATOR = /^(<>|<=|>=|<|>|=)?(.*)$/s;

export function hasWildcard(text: string): boolean {
  return /[*?~]/.test(text);
}

/**
 * Says whether a text fits a pattern as a whole, in either case: `*` is any characters, `?` one, `~` takes the next as it is.
 * A star is only ever tried again from the last one, so that no pattern takes longer than both lengths multiplied.
 */
export function matchesPattern(text: string, pattern: string, context: Context): boolean {
  const wanted = patternOf(pattern);
  const given = text.toLowerCase();
  context.book.budget.spend(1 + given.length);
  let at = 0;
  let place = 0;
  let star = -1;
  let afterStar = 0;
  while (at < given.length) {
    const piece = wanted[place];
    if (piece !== undefined && piece !== ANY && (piece === ONE || piece === given[at])) {
      at += 1;
      place += 1;
    } else if (piece === ANY) {
      star = place;
      afterStar = at;
      place += 1;
    } else if (star >= 0) {
      context.book.budget.spend(1);
      place = star + 1;
      afterStar += 1;
      at = afterStar;
    } else return false;
  }
  while (wanted[place] === ANY) place += 1;
  return place === wanted.length;
}

const ANY = Symbol("any characters");
const ONE = Symbol("one character");

function patternOf(pattern: string): readonly (string | typeof ANY | typeof ONE)[] {
  const pieces: (string | typeof ANY | typeof ONE)[] = [];
  const lower = pattern.toLowerCase();
  for (let index = 0; index < lower.length; index += 1) {
    const letter = lower[index] as string;
    const next = lower[index + 1];
    if (letter === "~" && next !== undefined && /[*?~]/.test(next)) {
      pieces.push(next);
      index += 1;
    } else if (letter === "*") {
      if (pieces.at(-1) !== ANY) pieces.push(ANY);
    } else pieces.push(letter === "?" ? ONE : letter);
  }
  return pieces;
}

/** A value for which a criterion asks alone, so that an index of a column can answer it; undefined for any other criterion. */
export function wantedAlone(criterion: Scalar): number | string | undefined {
  if (typeof criterion === "number") return criterion;
  if (typeof criterion !== "string") return undefined;
  const [, operator = "", operand = ""] = OPERATOR.exec(criterion) ?? [];
  if ((operator !== "" && operator !== "=") || operand === "" || hasWildcard(operand)) return undefined;
  return isTruth(operand) || isErrorCode(operand) ? undefined : (numberInText(operand) ?? operand);
}

const isTruth = (text: string) => /^(?:true|false)$/i.test(text);
const isErrorCode = (text: string) => /^#(?:N\/A|VALUE!|REF!|DIV\/0!|NUM!|NAME\?|NULL!)$/i.test(text);

/**
 * Reads a criterion of COUNTIF and its like: a value, or a text that begins with an operator.
 *
 * @source Microsoft's reference of COUNTIF and SUMIFS; ECMA-376-1:2016, section 18.17.7.58
 */
export function criterion(given: Scalar, context: Context): Meets {
  if (given instanceof CellError) return (value) => value instanceof CellError && value.code === given.code;
  if (typeof given === "boolean") return (value) => value === given;
  if (given === null) return (value) => value === 0;
  if (typeof given === "number") return equalsNumber(given);
  const [, operator = "", operand = ""] = OPERATOR.exec(given) ?? [];
  if (operator === "" && operand === "") return (value) => value === null || value === "";
  if (operator === "" || operator === "=") return equals(operand, context);
  if (operator === "<>") {
    if (operand === "") return (value) => value !== null;
    const same = equals(operand, context);
    return (value) => !same(value);
  }
  return ordered(operator, operand);
}

function equalsNumber(wanted: number): Meets {
  return (value) => {
    if (typeof value === "number") return isSameNumber(value, wanted);
    return typeof value === "string" && /\d/.test(value) && isSameNumber(numberInText(value) ?? Number.NaN, wanted);
  };
}

function equals(operand: string, context: Context): Meets {
  if (operand === "") return (value) => value === null;
  if (isTruth(operand)) return (value) => value === (operand.toUpperCase() === "TRUE");
  if (isErrorCode(operand)) return (value) => value instanceof CellError && value.code === operand.toUpperCase();
  const number = numberInText(operand);
  if (number !== undefined) return equalsNumber(number);
  if (hasWildcard(operand)) return (value) => typeof value === "string" && matchesPattern(value, operand, context);
  return (value) => typeof value === "string" && isSameText(value, operand);
}

function ordered(operator: string, operand: string): Meets {
  const fits = (order: number) => {
    if (operator === "<") return order < 0;
    if (operator === ">") return order > 0;
    return operator === "<=" ? order <= 0 : order >= 0;
  };
  if (isTruth(operand)) {
    const wanted = operand.toUpperCase() === "TRUE" ? 1 : 0;
    return (value) => typeof value === "boolean" && fits(Number(value) - wanted);
  }
  const number = numberInText(operand);
  if (number !== undefined) {
    return (value) => typeof value === "number" && fits(isSameNumber(value, number) ? 0 : value - number);
  }
  return (value) => typeof value === "string" && operand !== "" && fits(compareTexts(value, operand));
}
