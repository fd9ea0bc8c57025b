import { PLAUSIBLE } from "../../../shared/tables/plausible-ranges.js";

/*
 * Pieces of plain formulas that read their arguments as the cell functions do: blank and 0 are not given where a 0 makes
 * no sense, text is a wrong input, nothing measured yet is empty text. Every piece takes and gives formula text without
 * an equals sign, and uses only what every spreadsheet program of the last fifteen years calculates.
 */

/** A wrong input: gives #VALUE! in every program. */
export const WRONG = 'VALUE("wrong input")';

/** A missing input. */
export const MISSING = "NA()";

/** Nothing measured yet. */
export const EMPTY = '""';

const NUMBER = /^-?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const SIMPLE = /^(?:[\p{L}\p{N}_.$!:]+|'[^']*'![\p{L}\p{N}_.$:]+|[\p{L}][\p{L}\p{N}.]*\([^()]*\))$/u;

/** An argument in brackets where an operator could tear it apart. */
export function part(text: string): string {
  return SIMPLE.test(text) ? text : `(${text})`;
}

/** Whether an argument was left out of the call, or is an empty text. */
export function isOmitted(text: string): boolean {
  return text === "" || text === EMPTY;
}

function isNumber(text: string): boolean {
  return NUMBER.test(text);
}

/**
 * A condition that holds where each of several does. A product, and not AND, so that in an array formula every cell of a
 * block is asked by itself.
 */
export function allOf(conditions: readonly string[]): string {
  return conditions.length === 1 ? (conditions[0] as string) : conditions.map((one) => part(one)).join("*");
}

/** A condition that holds where any of several does: a sum, and not OR, for the same reason. */
export function anyOf(conditions: readonly string[]): string {
  return conditions.length === 1 ? (conditions[0] as string) : conditions.map((one) => part(one)).join("+");
}

/** `IF`, worked out at once where the condition is known. */
export function choose(condition: string, whenTrue: string, otherwise: string): string {
  if (condition === "TRUE") return whenTrue;
  if (condition === "FALSE") return otherwise;
  return `IF(${condition},${whenTrue},${otherwise})`;
}

/** True where any of the arguments was not given. */
export function anyMissing(texts: readonly string[]): string {
  const open = texts.filter((text) => !(isNumber(text) && Number(text) !== 0));
  if (open.some((text) => isOmitted(text) || Number(text) === 0)) return "TRUE";
  if (open.length === 0) return "FALSE";
  return anyOf(open.flatMap((text) => [`${part(text)}=""`, `${part(text)}=0`]));
}

/** True where none of the arguments was given. */
export function allMissing(texts: readonly string[]): string {
  const conditions = texts.map((text) => anyMissing([text]));
  if (conditions.includes("FALSE")) return "FALSE";
  const open = conditions.filter((condition) => condition !== "TRUE");
  if (open.length === 0) return "TRUE";
  return allOf(open);
}

/** What a number must be. */
export type Demand = "above 0" | "0 or more" | "a length" | "any";

/** An argument that is needed, and what it must be. */
export type Needed = readonly [text: string, demand: Demand];

function meets([text, demand]: Needed): readonly string[] {
  if (demand === "any") return [];
  if (demand === "a length") return [`${part(text)}>0`, `${part(text)}<=${PLAUSIBLE.length.most}`];
  return [`${part(text)}${demand === "above 0" ? ">0" : ">=0"}`];
}

/** A result for which every argument is needed: #N/A where one is missing, #VALUE! where one is wrong. */
export function needing(needed: readonly Needed[], result: string): string {
  const texts = needed.map(([text]) => text);
  const open = needed.filter(([text]) => !isNumber(text));
  const tests = [...numbersTest(open.map(([text]) => text)), ...needed.flatMap(meets)];
  const checked = tests.length === 0 ? result : `IF(${allOf(tests)},${result},${WRONG})`;
  return choose(anyMissing(texts), MISSING, checked);
}

function numbersTest(texts: readonly string[]): readonly string[] {
  return texts.map((text) => `ISNUMBER(${text})`);
}

/** An argument that may be left out, and for which 0 means just that. */
export function optional(text: string, whenNotGiven: string, demand: Demand = "any"): string {
  if (isOmitted(text) || Number(text) === 0) return whenNotGiven;
  if (isNumber(text)) return text;
  const test = allOf([`ISNUMBER(${text})`, ...meets([text, demand])]);
  return choose(anyMissing([text]), whenNotGiven, `IF(${test},${part(text)},${WRONG})`);
}

/** An argument that may be left out, and for which 0 is a value; a blank cell is 0. */
export function optionalZero(text: string, whenOmitted: string): string {
  if (isOmitted(text)) return whenOmitted;
  if (isNumber(text)) return text;
  return `IF(ISTEXT(${text}),IF(${part(text)}="",${whenOmitted},${WRONG}),${part(text)}+0)`;
}

/** Nothing while no argument was given, so that an empty row stays quiet. */
export function quietWhenEmpty(texts: readonly string[], result: string): string {
  return choose(allMissing(texts), EMPTY, result);
}

/** One measured quantity: a 0 counts only where `taken` says that it was measured. */
export function measured(text: string, taken: string, result: string): string {
  if (isOmitted(text)) return isOmitted(taken) ? MISSING : EMPTY;
  const whenZero = isOmitted(taken) ? MISSING : whenCounted(taken, result);
  const asText = `IF(${part(text)}="",${EMPTY},${WRONG})`;
  return `IF(ISTEXT(${text}),${asText},IF(${part(text)}=0,${whenZero},${result}))`;
}

/** A COUNT of 0 says that nothing was measured; what is no COUNT is a wrong input. */
function whenCounted(taken: string, result: string): string {
  const counted = `IF(${part(taken)}=0,${EMPTY},${result})`;
  if (/^COUNT\([^()]*\)$/i.test(taken)) return counted;
  const t = part(taken);
  return `IF(ISNUMBER(${taken}),IF((${t}>=0)*(${t}=INT(${t})),${counted},${WRONG}),${WRONG})`;
}

/** A literal argument without its quotes, in lower case; the text itself for a cell or an expression. */
function plainWord(text: string): string {
  return text.toLowerCase().replaceAll(/[" ]/g, "");
}

/** One of two texts, by the argument `units`, which `checkingUnits` has looked at. */
export function inUnits(units: string, inchPound: string, metric: string): string {
  if (inchPound === metric || isOmitted(units)) return inchPound;
  if (units.startsWith('"')) return plainWord(units) === "si" ? metric : inchPound;
  return `IF(${part(units)}="si",${metric},${inchPound})`;
}

/** A result for which `units` must be one of its two words, or left out. */
export function checkingUnits(units: string, result: string): string {
  if (isOmitted(units)) return result;
  if (units.startsWith('"')) return ["ip", "si"].includes(plainWord(units)) ? result : WRONG;
  const u = part(units);
  return `IF((${u}="ip")+(${u}="si")+(${u}="")+(${u}=0),${result},${WRONG})`;
}
