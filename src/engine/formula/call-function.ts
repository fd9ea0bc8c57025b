import { CellError } from "../../cells/index.js";
import { broadcast } from "./broadcast.js";
import { toBoolean, toNumber, toText } from "./coerce.js";
import type { Context, Evaluate } from "./context.js";
import type { ArgumentKind, CalledFunction, ParameterSpec, Result } from "./function-spec.js";
import { Areas, finite, Lambda, Matrix, Range, type Scalar, type Value } from "./values.js";

function coerced(kind: ArgumentKind, value: Value): unknown {
  if (kind === "r" || kind === "a" || kind === "e") return kind === "e" ? (value ?? null) : value;
  const scalar = (value ?? null) as Scalar;
  if (scalar instanceof CellError) throw scalar;
  if (kind === "n") return toNumber(scalar);
  if (kind === "t") return toText(scalar);
  return kind === "b" ? toBoolean(scalar) : scalar;
}

function isScalarKind(kind: ArgumentKind): boolean {
  return kind !== "r" && kind !== "a";
}

/** What a function gave, as the rest of the formula takes it: no number that is not finite. */
export function asValue(result: Result): Value {
  if (typeof result === "number") return finite(result);
  if (Array.isArray(result)) return checked(new Matrix(result as Scalar[][]));
  return result instanceof Matrix ? checked(result) : (result as Value);
}

function checked(matrix: Matrix): Matrix {
  const isSound = matrix.rows.every((row) => row.every((value) => typeof value !== "number" || Number.isFinite(value)));
  if (isSound) return matrix;
  return new Matrix(matrix.rows.map((row) => row.map((value) => (typeof value === "number" ? finite(value) : value))));
}

function once(
  spec: CalledFunction,
  parameters: readonly ParameterSpec[],
  given: readonly Value[],
  context: Context,
): Value {
  try {
    const values: unknown[] = [];
    for (let index = 0; index < given.length; index += 1) {
      const value = given[index];
      const { kind, emptyIs } = parameters[index] as ParameterSpec;
      values.push(value === undefined && emptyIs === "notGiven" ? undefined : coerced(kind, value));
    }
    return asValue(spec.call(context, ...(values as never[])));
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}

function asOneValue(value: Value): Scalar {
  if (value instanceof Matrix) return value.at(0, 0);
  if (value instanceof Range) return value.at(0, 0);
  if (value instanceof Areas || value instanceof Lambda) return null;
  return value ?? null;
}

/** Calls a function, for each value of a block where one value was meant and a block was given. */
export function callFunction(
  spec: CalledFunction,
  parameters: readonly ParameterSpec[],
  evaluators: readonly Evaluate[],
  context: Context,
): Value {
  context.book.budget.spend(1);
  const given: Value[] = [];
  const spreading: number[] = [];
  for (let index = 0; index < evaluators.length; index += 1) {
    const value = (evaluators[index] as Evaluate)(context);
    if (value instanceof Matrix && isScalarKind((parameters[index] as ParameterSpec).kind)) spreading.push(index);
    given.push(value);
  }
  if (spreading.length === 0) return once(spec, parameters, given, context);
  const blocks = spreading.map((index) => given[index] as Matrix);
  return broadcast(
    blocks,
    (values) => {
      const each = [...given];
      spreading.forEach((index, place) => {
        each[index] = values[place];
      });
      context.book.budget.spend(1);
      return asOneValue(once(spec, parameters, each, context));
    },
    context,
  );
}
