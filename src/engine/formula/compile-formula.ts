import { CellError } from "../../cells/index.js";
import { WORKBOOK_LIMITS } from "../../xlsx/index.js";
import { CALCULATION_LIMITS } from "../calculator/calculation-limits.js";
import { functionNamed } from "../functions/index.js";
import { broadcast } from "./broadcast.js";
import { BeyondLimitError } from "./budget.js";
import { callFunction } from "./call-function.js";
import { toMatrix } from "./coerce.js";
import type { Compiled, Context, Evaluate } from "./context.js";
import type { CalledFunction, Compiler } from "./function-spec.js";
import { parameterAt } from "./function-spec.js";
import { applyOperator, applySign } from "./operators.js";
import { FormulaFault } from "./parse-formula.js";
import { crossed, joinedBy, noSheet, placed, placeOf, spilledBlock } from "./place-reference.js";
import { eachNode, type FormulaNode } from "./syntax.js";
import { Areas, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "./values.js";

type ScalarEvaluate = (context: Context) => Scalar | Matrix;

/** Functions whose references are only known while they are calculated. */
const MAKES_REFERENCES = new Set(["INDIRECT", "OFFSET"]);

/** Functions that ask where a reference lies and not what its cells hold, so that they may stand in it themselves. */
export const LOOKS_AT_PLACES: ReadonlySet<string> = new Set([
  "ROW",
  "COLUMN",
  "ROWS",
  "COLUMNS",
  "AREAS",
  "SHEET",
  "SHEETS",
  "ISREF",
  "ISFORMULA",
]);

/** What a subtotal leaves out, so that nothing is counted twice. */
const SUBTOTALS = new Set(["SUBTOTAL", "AGGREGATE"]);

/**
 * Makes a formula ready.
 *
 * @param node - As it was read
 * @param isArray - Whether whole blocks are calculated wherever one value is meant; otherwise a block stands for its one
 * cell in the formula's own row or column there
 * @throws {FormulaFault} For a function that is not known, or is given too few or too many arguments
 */
export function compileFormula(node: FormulaNode, isArray: boolean): Compiled {
  const references: Extract<FormulaNode, { kind: "reference" }>[] = [];
  const names: string[] = [];
  const calls = new Set<string>();
  const bound = new Set<string>();
  const unread = new Set<FormulaNode>();
  let joins = false;
  eachNode(node, (part) => {
    if (part.kind === "call" && LOOKS_AT_PLACES.has(part.name)) for (const place of placesIn(part)) unread.add(place);
    if (part.kind === "reference") {
      if (!unread.has(part)) references.push(part);
    } else if (part.kind === "name") names.push(part.name);
    else if (part.kind === "call") {
      calls.add(part.name);
      if (part.name === "LET" || part.name === "LAMBDA") for (const name of boundBy(part)) bound.add(name);
    } else if (part.kind === "join" && part.operator === ":") joins = true;
    else if (part.kind === "unary" && part.operator === "#") joins = true;
  });
  const unknownCalls = [...calls].filter((name) => functionNamed(name) === undefined && !bound.has(name));
  return {
    evaluate: evaluatorOf(node, isArray),
    references,
    names: [...names, ...unknownCalls],
    unknownCalls,
    callsVane: [...calls].some((name) => name.startsWith("VANE.")),
    makesReferences: joins || [...calls].some((name) => MAKES_REFERENCES.has(name)),
    isSubtotal: [...calls].some((name) => SUBTOTALS.has(name)),
  };
}

/** The references that are handed to a call as they stand, alone or joined. */
function placesIn({ given }: Extract<FormulaNode, { kind: "call" }>): readonly FormulaNode[] {
  const places = (part: FormulaNode): readonly FormulaNode[] => {
    if (part.kind === "join") return [...places(part.left), ...places(part.right)];
    return part.kind === "reference" ? [part] : [];
  };
  return given.flatMap(places);
}

/** The names that a LET or LAMBDA gives. */
function boundBy({ name, given }: Extract<FormulaNode, { kind: "call" }>): readonly string[] {
  return given.flatMap((part, index) =>
    part.kind === "name" && index < given.length - 1 && (name === "LAMBDA" || index % 2 === 0)
      ? [part.name.toUpperCase()]
      : [],
  );
}

function compilerFor(isArray: boolean): Compiler {
  return {
    isArray,
    value: (node) => evaluatorOf(node, isArray),
    scalar: (node) => scalarOf(node, isArray),
  };
}

/** Makes a part ready to give whatever it gives, references among it. */
function evaluatorOf(node: FormulaNode, isArray: boolean): Evaluate {
  switch (node.kind) {
    case "value":
      return () => node.value;
    case "omitted":
      return () => undefined;
    case "array": {
      const matrix = new Matrix(node.rows);
      return () => matrix;
    }
    case "reference":
      return (context) => placed(node, context);
    case "name":
      return (context) => valueOfName(node.name, context);
    case "call":
      return callOf(node.name, node.given, isArray);
    case "invoke":
      return invocationOf(evaluatorOf(node.target, isArray), node.given, isArray);
    case "unary":
      if (node.operator === "@") return intersectionAt(node.operand, isArray);
      if (node.operator === "#") {
        const operand = evaluatorOf(node.operand, isArray);
        return (context) => spilledBlock(operand(context), context);
      }
      return signOf(node.operator, scalarOf(node.operand, isArray));
    case "binary":
      return operatorOf(node, isArray);
    case "join": {
      const left = evaluatorOf(node.left, isArray);
      const right = evaluatorOf(node.right, isArray);
      return (context) => joinedBy(node.operator, left(context), right(context), context);
    }
  }
}

function signOf(operator: "-" | "+" | "%", operand: ScalarEvaluate): ScalarEvaluate {
  return (context) => {
    const value = operand(context);
    return value instanceof Matrix
      ? broadcast([value], ([one]) => applySign(operator, one as Scalar), context)
      : applySign(operator, value);
  };
}

function operatorOf(
  { operator, left, right }: Extract<FormulaNode, { kind: "binary" }>,
  isArray: boolean,
): ScalarEvaluate {
  const one = scalarOf(left, isArray);
  const other = scalarOf(right, isArray);
  return (context) => {
    const a = one(context);
    const b = other(context);
    if (a instanceof Matrix || b instanceof Matrix) {
      return broadcast([a, b], ([x, y]) => applyOperator(operator, x as Scalar, y as Scalar), context);
    }
    return applyOperator(operator, a, b);
  };
}

/** Makes a part ready where one value is meant. */
function scalarOf(node: FormulaNode, isArray: boolean): ScalarEvaluate {
  if (node.kind === "value") return () => node.value;
  if (node.kind === "binary" || (node.kind === "unary" && node.operator !== "@" && node.operator !== "#")) {
    return evaluatorOf(node, isArray) as ScalarEvaluate;
  }
  if (node.kind === "reference" && !node.reference.isRange && node.lastSheet === undefined) return cellOf(node);
  const evaluate = evaluatorOf(node, isArray);
  return (context) => asScalar(evaluate(context), context, isArray);
}

function cellOf(node: Extract<FormulaNode, { kind: "reference" }>): ScalarEvaluate {
  const { sheet, rows, columns } = node.reference;
  const row = rows?.[0];
  const column = columns?.[0];
  if (row === undefined || column === undefined) return () => ERROR.reference;
  return (context) => {
    const grid = sheet === null ? context.grid : context.book.gridNamed(sheet);
    if (grid === undefined) return noSheet(sheet);
    return grid.cellAt(
      placeOf(row, context.row, WORKBOOK_LIMITS.rows),
      placeOf(column, context.column, WORKBOOK_LIMITS.columns),
    );
  };
}

/** What a value is where one is meant: a block of cells stands for its cell in this row or column, or for all of them. */
export function asScalar(value: Value, context: Context, isArray: boolean): Scalar | Matrix {
  if (value instanceof Range) {
    if (value.isCell) return value.grid.cellAt(value.firstRow, value.firstColumn);
    return isArray ? toMatrix(value, (cells) => context.book.budget.spend(cells)) : crossed(value, context);
  }
  if (value instanceof Areas) {
    const [only] = value.ranges;
    return value.ranges.length === 1 && only !== undefined ? asScalar(only, context, isArray) : ERROR.value;
  }
  if (value instanceof Lambda) return ERROR.value;
  return value ?? null;
}

function intersectionAt(node: FormulaNode, isArray: boolean): Evaluate {
  // What stands behind the mark is calculated as it is; of the result one value is left.
  const evaluate = evaluatorOf(node, isArray);
  return (context) => {
    const value = evaluate(context);
    if (value instanceof Range) return value.isCell ? value : crossed(value, context);
    if (value instanceof Matrix) return value.at(0, 0);
    return value;
  };
}

function valueOfName(name: string, context: Context): Value {
  const upper = name.toUpperCase();
  for (let scope = context.scope; scope !== undefined; scope = scope.outer) {
    if (scope.name === upper) return scope.value;
  }
  const compiled = context.book.nameOn(context.grid.index, name);
  if (compiled === undefined) {
    return new CellError("#NAME?", `The name ${name} is not defined, or the formula cannot be read.`);
  }
  return compiled.evaluate(deeper({ ...context, scope: undefined }));
}

/** Goes one name or LAMBDA further in. @throws {BeyondLimitError} Where that never ends */
export function deeper(context: Context): Context {
  if (context.nesting >= CALCULATION_LIMITS.nesting) {
    throw new BeyondLimitError(`its names or LAMBDA calls go more than ${CALCULATION_LIMITS.nesting} deep`);
  }
  return { ...context, nesting: context.nesting + 1 };
}

function callOf(name: string, given: readonly FormulaNode[], isArray: boolean): Evaluate {
  const spec = functionNamed(name);
  if (spec === undefined) return namedLambda(name, given, isArray);
  if (given.length < spec.least || given.length > spec.most) {
    throw new FormulaFault(`it calls ${name} with too few or too many arguments`);
  }
  if ("compile" in spec) return spec.compile(given, compilerFor(isArray));
  return calledFunction(spec, given, isArray);
}

function calledFunction(spec: CalledFunction, given: readonly FormulaNode[], isArray: boolean): Evaluate {
  const parameters = given.map((_, index) => parameterAt(spec, index));
  const evaluators = given.map((node, index): Evaluate => {
    const kind = parameters[index]?.kind;
    if (kind === "r") return evaluatorOf(node, isArray);
    if (kind === "a") return evaluatorOf(node, true);
    return node.kind === "omitted" ? () => undefined : scalarOf(node, isArray);
  });
  return (context) => callFunction(spec, parameters, evaluators, context);
}

/** A call of what LET or a defined name calls a function; whether there is one is only known in the workbook. */
function namedLambda(name: string, given: readonly FormulaNode[], isArray: boolean): Evaluate {
  return invocationOf(
    (context) => {
      const value = valueOfName(name, context);
      if (value instanceof Lambda) return value;
      return new CellError("#NAME?", `Unknown function: "${name}".`);
    },
    given,
    isArray,
  );
}

function invocationOf(target: Evaluate, given: readonly FormulaNode[], isArray: boolean): Evaluate {
  const evaluators = given.map((node) => evaluatorOf(node, isArray));
  return (context) => {
    const lambda = target(context);
    if (lambda instanceof CellError) return lambda;
    if (!(lambda instanceof Lambda)) return ERROR.value;
    deeper(context);
    return lambda.call(evaluators.map((evaluate) => evaluate(context)));
  };
}
