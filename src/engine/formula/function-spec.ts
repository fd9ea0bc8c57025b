import type { Context, Evaluate } from "./context.js";
import type { FormulaNode } from "./syntax.js";
import type { Matrix, Scalar, Value } from "./values.js";

/**
 * How an argument reaches a function.
 *
 * n, t, b: one number, text or truth value, whatever was given turned into it; v: one value as it is, an error is the
 * result; e: one value, errors too. Given a block where one value is meant, the function is calculated for each of its values.
 * r: whatever was given, blocks and references whole; a: the same, and what stands in the argument is calculated for whole
 * blocks even where a formula has no mark of an array.
 */
export type ArgumentKind = "n" | "t" | "b" | "v" | "e" | "r" | "a";

export interface ParameterSpec {
  readonly kind: ArgumentKind;
  /** What an argument that stands there but is empty, `f(1,,2)`, counts as: a blank, or not given at all. */
  readonly emptyIs: "blank" | "notGiven";
}

export type Result = Scalar | readonly (readonly Scalar[])[] | Value;

/** A function that is calculated from its arguments. */
export interface CalledFunction {
  readonly name: string;
  readonly least: number;
  readonly most: number;
  readonly parameters: readonly ParameterSpec[];
  /** So many of the last parameters come again and again. */
  readonly repeating: number;
  readonly call: (context: Context, ...given: never[]) => Result;
}

/** What a function that looks at its arguments before they are calculated may do with them. */
export interface Compiler {
  /** Makes a part ready to give whatever it gives. */
  value(node: FormulaNode): Evaluate;
  /** Makes a part ready to give one value, or a block of values where it is given one. */
  scalar(node: FormulaNode): (context: Context) => Scalar | Matrix;
  readonly isArray: boolean;
}

/** A function that decides itself which of its arguments are calculated. */
export interface SpecialFunction {
  readonly name: string;
  readonly least: number;
  readonly most: number;
  readonly compile: (given: readonly FormulaNode[], compiler: Compiler) => Evaluate;
}

export type FunctionSpec = CalledFunction | SpecialFunction;

type Given<Letter extends string> = Letter extends "n"
  ? number
  : Letter extends "t"
    ? string
    : Letter extends "b"
      ? boolean
      : Letter extends "v" | "e"
        ? Scalar
        : Value;

type One<Word extends string> = Word extends `${infer Letter}?` | `${infer Letter}~`
  ? Given<Letter> | undefined
  : Given<Word>;

/** The arguments that a description hands over: "n n?" are a number and, perhaps, another. */
export type Arguments<Description extends string> = Description extends ""
  ? []
  : Description extends `(${string})*`
    ? Value[]
    : Description extends `${infer First} ${infer Rest}`
      ? First extends `(${string}`
        ? Value[]
        : [One<First>, ...Arguments<Rest>]
      : Description extends `${infer Letter}*`
        ? Given<Letter>[]
        : [One<Description>];

/** The most arguments of one call, as in other spreadsheet programs. */
const MOST = 255;

function parameterOf(word: string): ParameterSpec {
  return { kind: word[0] as ArgumentKind, emptyIs: word.endsWith("~") ? "notGiven" : "blank" };
}

/**
 * Describes a function.
 *
 * @param name - As typed
 * @param description - A word for each parameter: its kind, with "?" where it may be left out, "~" where it may and an empty
 * one counts as left out, "*" where it repeats; `(r v)*` repeats as a pair
 * @param call - Throws or returns a CellError where it has no result
 */
export function fn<Description extends string>(
  name: string,
  description: Description,
  call: (context: Context, ...given: Arguments<Description>) => Result,
): CalledFunction {
  const [, fixed = "", group = ""] = /^([^(]*?)\s*(?:\(([^)]*)\)\*)?$/.exec(description) ?? [];
  const words = fixed.split(" ").filter((word) => word !== "");
  const isRepeated = words.at(-1)?.endsWith("*") === true;
  const repeated = group.split(" ").filter((word) => word !== "");
  const least = words.filter((word) => !/[?~]$/.test(word)).length;
  const repeating = isRepeated ? 1 : repeated.length;
  return {
    name,
    least,
    most: repeating > 0 ? MOST : words.length,
    parameters: [...words, ...repeated].map(parameterOf),
    repeating,
    call: call as CalledFunction["call"],
  };
}

/** The parameter that an argument belongs to, counted from 0. */
export function parameterAt({ parameters, repeating }: CalledFunction, index: number): ParameterSpec {
  const fixed = parameters.length - repeating;
  const at = index < parameters.length || repeating === 0 ? index : fixed + ((index - fixed) % repeating);
  return parameters[at] as ParameterSpec;
}
