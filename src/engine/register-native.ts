import { addFunction, helpers, registries } from "@odoo/o-spreadsheet";
import { CELL_ERROR_CODES, CellError } from "../cells/index.js";
import { PAGE_LIMITS } from "./calculator/calculation-limits.js";
import type { EngineCell } from "./exchange.js";
import { broadcast } from "./formula/broadcast.js";
import { BeyondLimitError, Budget } from "./formula/budget.js";
import { callFunction } from "./formula/call-function.js";
import { toMatrix } from "./formula/coerce.js";
import type { Book, Context } from "./formula/context.js";
import { type CalledFunction, type Compiler, type FunctionSpec, parameterAt } from "./formula/function-spec.js";
import { applyOperator, applySign } from "./formula/operators.js";
import { crossed } from "./formula/place-reference.js";
import type { BinaryOperator, FormulaNode } from "./formula/syntax.js";
import { Areas, type CellGrid, ERROR, Lambda, Matrix, Range, type Scalar, type Value } from "./formula/values.js";
import { FUNCTION_GROUPS } from "./functions/index.js";

/** A cell of the grid as the library hands it over: what a reference leads to also says where it stands. */
interface GridCell extends EngineCell {
  readonly format?: string;
  readonly position?: { readonly sheetId: string; readonly col: number; readonly row: number };
}

type Columns = readonly (readonly (GridCell | undefined)[])[];
type GivenArgument = GridCell | Columns | undefined;

/** What the library asks its functions to be called on. */
interface LibraryContext {
  readonly __originCellPosition?: { readonly sheetId: string; readonly col: number; readonly row: number };
  readonly getters: {
    isRowFiltered(sheetId: string, row: number): boolean;
    isRowHiddenByUser(sheetId: string, row: number): boolean;
    getCorrespondingFormulaCell(
      position: object,
    ): { readonly isFormula: boolean; readonly compiledFormula: { usesSymbol(name: string): boolean } } | undefined;
  };
}

/**
 * What stays the library's own: it makes references while it calculates, which only the library can follow, or gives what only
 * the library can show.
 */
const LIBRARY_OWN = new Set([
  "OFFSET",
  "INDIRECT",
  "HYPERLINK",
  "CELL",
  "SHEET",
  "SHEETS",
  "LET",
  "LAMBDA",
  "MAP",
  "BYROW",
  "BYCOL",
  "REDUCE",
  "SCAN",
  "MAKEARRAY",
  "ISOMITTED",
]);

/** The library's names of operators. */
const OPERATORS: Readonly<Record<string, BinaryOperator>> = {
  ADD: "+",
  MINUS: "-",
  MULTIPLY: "*",
  DIVIDE: "/",
  POW: "^",
  CONCATENATE: "&",
  EQ: "=",
  NE: "<>",
  GT: ">",
  GTE: ">=",
  LT: "<",
  LTE: "<=",
};

const SIGNS = { UMINUS: "-", UPLUS: "+", "UNARY.PERCENT": "%" } as const;

/** Functions whose result is a day or a time, and how the library shows it. */
const SHOWN_AS: Readonly<Record<string, string>> = {
  DATE: "m/d/yyyy",
  DATEVALUE: "m/d/yyyy",
  TODAY: "m/d/yyyy",
  EDATE: "m/d/yyyy",
  EOMONTH: "m/d/yyyy",
  WORKDAY: "m/d/yyyy",
  "WORKDAY.INTL": "m/d/yyyy",
  NOW: "m/d/yyyy hh:mm:ss",
  TIME: "hh:mm:ss a",
  TIMEVALUE: "hh:mm:ss a",
};

/** Functions whose result is of the kind of what they are given, so that it is shown in the same way. */
const SHOWN_ALIKE = new Set([
  ..."ADD MINUS MULTIPLY DIVIDE UMINUS UPLUS SUM AVERAGE MIN MAX MEDIAN MODE SUMIF SUMIFS AVERAGEIF AVERAGEIFS MAXIFS MINIFS INDEX VLOOKUP HLOOKUP LOOKUP XLOOKUP IF IFERROR IFNA IFS SWITCH CHOOSE ROUND ROUNDUP ROUNDDOWN MROUND CEILING FLOOR LARGE SMALL SUBTOTAL AGGREGATE SUMPRODUCT ABS".split(
    " ",
  ),
]);

const ERRORS_BY_CODE: ReadonlyMap<string, CellError> = new Map(
  CELL_ERROR_CODES.map((code) => [code, new CellError(code, "")]),
);

function scalarOf(cell: GridCell | undefined): Scalar {
  const value = cell?.value ?? null;
  if (typeof value !== "string" || !helpers.isEvaluationError(value)) return value;
  const message = cell?.message ?? "";
  const code = CELL_ERROR_CODES.find((known) => known === value) ?? "#VALUE!";
  return message === "" ? (ERRORS_BY_CODE.get(code) as CellError) : new CellError(code, message);
}

function isColumns(given: GivenArgument): given is Columns {
  return Array.isArray(given);
}

/** What the cells of a block that the library handed over are to a formula: they stand on a sheet. */
function rangeOf(columns: Columns, { getters }: LibraryContext): Range | undefined {
  const at = columns[0]?.[0]?.position;
  if (at === undefined) return undefined;
  const [top, left] = [at.row + 1, at.col + 1];
  const height = columns[0]?.length ?? 0;
  const grid: CellGrid = {
    index: 0,
    name: at.sheetId,
    lastRow: at.row + height,
    lastColumn: at.col + columns.length,
    cellAt: (row, column) => scalarOf(columns[column - left]?.[row - top]),
    rowStateAt: (row) => {
      if (getters.isRowFiltered(at.sheetId, row - 1)) return "filtered";
      return getters.isRowHiddenByUser(at.sheetId, row - 1) ? "hidden" : "shown";
    },
    formulaAt: (row, column) => {
      const cell = getters.getCorrespondingFormulaCell({ sheetId: at.sheetId, row: row - 1, col: column - 1 });
      if (cell?.isFormula !== true) return undefined;
      const isSubtotal = cell.compiledFormula.usesSymbol("SUBTOTAL") || cell.compiledFormula.usesSymbol("AGGREGATE");
      return { fills: undefined, isSubtotal };
    },
  };
  return new Range(grid, top, left, at.row + height, at.col + columns.length);
}

function givenValue(given: GivenArgument, context: LibraryContext): Value {
  if (given === undefined) return undefined;
  if (!isColumns(given)) return scalarOf(given);
  const range = rangeOf(given, context);
  if (range !== undefined) return range;
  const height = given[0]?.length ?? 0;
  return new Matrix(Array.from({ length: height }, (_, row) => given.map((column) => scalarOf(column[row]))));
}

function shown(value: Scalar, format: string | undefined): GridCell {
  if (value instanceof CellError) return { value: value.code, message: value.message };
  return format !== undefined && typeof value === "number" ? { value, format } : { value };
}

function asGiven(value: Value, format: string | undefined, book: Book): GridCell | GridCell[][] {
  if (value instanceof Matrix || value instanceof Range) {
    const { rows } = toMatrix(value, (cells) => book.budget.spend(cells));
    if (rows.length === 1 && rows[0]?.length === 1) return shown(rows[0][0] ?? null, format);
    const width = rows[0]?.length ?? 0;
    return Array.from({ length: width }, (_, column) => rows.map((row) => shown(row[column] ?? null, format)));
  }
  if (value instanceof Areas || value instanceof Lambda) return shown(ERROR.value, undefined);
  return shown(value ?? null, format);
}

function formatFor(name: string, given: readonly GivenArgument[]): string | undefined {
  const own = SHOWN_AS[name];
  if (own !== undefined || !SHOWN_ALIKE.has(name)) return own;
  for (const argument of given) {
    const cell = isColumns(argument) ? argument[0]?.[0] : argument;
    if (cell?.format !== undefined) return cell.format;
  }
  return undefined;
}

/** What large calls may still use before the page answers again. */
let leftAtOnce: number = PAGE_LIMITS.stepsAtOnce;

/** Whether what is calculated now is one thing, though the page answers in between. */
let isOneCalculation = false;

/** From now on all that is calculated shares what large calls may use, until it is ended. */
export function beginOneCalculation(): () => void {
  leftAtOnce = PAGE_LIMITS.stepsAtOnce;
  isOneCalculation = true;
  return () => {
    leftAtOnce = PAGE_LIMITS.stepsAtOnce;
    isOneCalculation = false;
  };
}

/** The library calculates all that an entry or an opening asks for in one go: only after it, promises are kept. */
function takeAtOnce(steps: number): void {
  if (leftAtOnce === PAGE_LIMITS.stepsAtOnce && !isOneCalculation) {
    void Promise.resolve().then(() => {
      leftAtOnce = PAGE_LIMITS.stepsAtOnce;
    });
  }
  leftAtOnce -= steps;
}

function contextFor({ __originCellPosition: at }: LibraryContext): Context {
  const budget = new Budget(1, Math.max(PAGE_LIMITS.stepsOfSmallCall, Math.min(PAGE_LIMITS.stepsOfCall, leftAtOnce)));
  budget.begin();
  const grid: CellGrid = {
    index: 0,
    name: at?.sheetId ?? "",
    lastRow: 1,
    lastColumn: 1,
    cellAt: () => null,
    formulaAt: () => undefined,
    rowStateAt: () => "shown",
  };
  const book: Book = {
    grids: [grid],
    budget,
    memory: new Map(),
    gridNamed: () => undefined,
    nameOn: () => undefined,
    needCells: () => undefined,
    compileText: () => {
      throw ERROR.reference;
    },
  };
  return { book, grid, row: (at?.row ?? 0) + 1, column: (at?.col ?? 0) + 1, scope: undefined, nesting: 0 };
}

/** The library calculates arguments first: a function that looks at its parts is shown ready ones. */
function compilerOver(values: readonly Value[]): {
  readonly compiler: Compiler;
  readonly nodes: readonly FormulaNode[];
} {
  const nodes = values.map(
    (value): FormulaNode => (value === undefined ? { kind: "omitted" } : { kind: "array", rows: [] }),
  );
  const at = (node: FormulaNode) => values[nodes.indexOf(node)];
  return {
    nodes,
    compiler: {
      isArray: true,
      value: (node) => () => at(node),
      scalar: (node) => (context) => {
        const value = at(node);
        if (value instanceof Range) {
          return value.isCell ? value.at(0, 0) : toMatrix(value, (cells) => context.book.budget.spend(cells));
        }
        return value instanceof Areas || value instanceof Lambda ? ERROR.value : (value ?? null);
      },
    },
  };
}

/** Where one value is meant a block of one cell is that cell. */
function fitting(spec: CalledFunction, index: number, value: Value, context: Context): Value {
  const { kind } = parameterAt(spec, index);
  if (kind === "r" || kind === "a" || !(value instanceof Range)) return value;
  return value.isCell ? value.at(0, 0) : toMatrix(value, (cells) => context.book.budget.spend(cells));
}

function calculate(spec: FunctionSpec, values: readonly Value[], context: Context): Value {
  if ("compile" in spec) {
    const { compiler, nodes } = compilerOver(values);
    return spec.compile(nodes, compiler)(context);
  }
  const parameters = values.map((_, index) => parameterAt(spec, index));
  return callFunction(
    spec,
    parameters,
    values.map((value, index) => () => fitting(spec, index, value, context)),
    context,
  );
}

function guarded(
  name: string,
  library: LibraryContext,
  given: readonly GivenArgument[],
  work: (values: readonly Value[], context: Context) => Value,
) {
  const context = contextFor(library);
  try {
    const values = given.map((argument) => givenValue(argument, library));
    return asGiven(work(values, context), formatFor(name, given), context.book);
  } catch (thrown) {
    if (thrown instanceof CellError) return shown(thrown, undefined);
    if (thrown instanceof BeyondLimitError)
      return { value: "#NUM!", message: `Not calculated on this page, which would stop answering: ${thrown.message}.` };
    throw thrown;
  } finally {
    const { spent } = context.book.budget;
    if (spent > PAGE_LIMITS.stepsOfSmallCall) takeAtOnce(spent);
  }
}

/** Offers the functions that are calculated here in the library too, in place of its own, so that both give the same. */
export function registerNative(): void {
  const { content } = registries.functionRegistry;
  for (const spec of Object.values(FUNCTION_GROUPS).flat()) {
    if (LIBRARY_OWN.has(spec.name)) continue;
    const known = content[spec.name];
    replace(
      spec.name,
      known === undefined ? namelessArguments(spec) : argumentsLike(known.args, spec),
      known?.description ?? spec.name,
      function (...given) {
        return guarded(spec.name, this, given, (values, context) => calculate(spec, values, context));
      },
    );
  }
  refuseRowZero();
  replace(
    "SINGLE",
    [argumentOf("value", "A block", false, false)],
    "The one value of a block where one is meant",
    function (...given) {
      return guarded("SINGLE", this, given, ([value], context) => {
        if (value instanceof Range) return crossed(value, context);
        return value instanceof Matrix ? value.at(0, 0) : value;
      });
    },
  );
  for (const [name, operator] of Object.entries(OPERATORS)) {
    if (name === "CONCATENATE") continue;
    replaceOperator(name, ([one = null, other = null]) => applyOperator(operator, one, other));
  }
  for (const [name, sign] of Object.entries(SIGNS)) replaceOperator(name, ([one = null]) => applySign(sign, one));
}

/** A cell in row 0, alone or at an end of a block. */
const ROW_ZERO = /(?:^|[!:])\$?[A-Z]{1,3}\$?0+(?=$|:)/i;

/** The library's INDIRECT reads a cell in row 0 as an empty one; there is none. */
function refuseRowZero(): void {
  const known = registries.functionRegistry.content["INDIRECT"];
  if (known === undefined) return;
  const compute = known.compute as unknown as Compute;
  replace("INDIRECT", wideArguments(known.args), known.description, function (...given) {
    const [text] = given;
    const value = isColumns(text) ? null : scalarOf(text);
    return typeof value === "string" && ROW_ZERO.test(value.trim())
      ? shown(ERROR.reference, undefined)
      : compute.apply(this, given);
  });
}

type Compute = (this: LibraryContext, ...given: GivenArgument[]) => unknown;

interface LibraryArgument {
  readonly name: string;
  readonly description: string;
  readonly optional?: boolean;
  readonly default?: boolean;
  readonly repeating?: boolean;
}

function argumentOf(name: string, description: string, optional: boolean, repeating: boolean) {
  const words = ["any", "range<any>", ...(optional ? ["optional"] : []), ...(repeating ? ["repeating"] : [])];
  return helpers.arg(`${name} (${words.join(", ")})`, description);
}

function wideArguments(known: readonly LibraryArgument[]) {
  return known.map((one) =>
    argumentOf(one.name, one.description, one.optional === true || one.default === true, one.repeating === true),
  );
}

/** The library's arguments, as many of them needed and as many allowed as here. */
function argumentsLike(known: readonly LibraryArgument[], spec: FunctionSpec) {
  const needed = known.filter((one) => !one.optional && !one.repeating && one.default !== true).length;
  const most = known.some(({ repeating }) => repeating === true) ? Number.POSITIVE_INFINITY : known.length;
  if (needed <= spec.least && most >= spec.most) return wideArguments(known);
  const parameters = "parameters" in spec ? spec.parameters : [];
  const repeats = "parameters" in spec && spec.repeating === 1 && !known.some(({ repeating }) => repeating === true);
  const more = parameters.slice(known.length).map((_, index) => ({
    name: `value${known.length + index + 1}`,
    description: "A value",
  }));
  const all: readonly LibraryArgument[] = [...known, ...more];
  return wideArguments(
    all.map((one, index) => ({
      ...one,
      optional: one.optional === true || index >= spec.least,
      repeating: one.repeating === true || (repeats && index === all.length - 1),
    })),
  );
}

function namelessArguments(spec: FunctionSpec) {
  const parameters = "parameters" in spec ? spec.parameters : [];
  const first = "parameters" in spec ? spec.parameters.length - spec.repeating : 0;
  return parameters.map((_, index) => argumentOf(`value${index + 1}`, "A value", index >= spec.least, index >= first));
}

function replace(name: string, args: ReturnType<typeof argumentOf>[], description: string, compute: Compute): void {
  const { content } = registries.functionRegistry;
  const known = content[name];
  const described = {
    description,
    args,
    compute,
    category: known?.category ?? "Misc",
    isExported: true,
    hidden: known?.hidden ?? false,
  };
  if (known === undefined) addFunction(name, described as never);
  else registries.functionRegistry.replace(name, described as never);
}

function replaceOperator(name: string, apply: (values: readonly Scalar[]) => Scalar): void {
  const known = registries.functionRegistry.content[name];
  if (known === undefined) return;
  replace(name, wideArguments(known.args), known.description, function (...given) {
    return guarded(name, this, given, (values, context) => {
      const inputs = values.map((value): Scalar | Matrix => {
        if (value instanceof Range)
          return value.isCell ? value.at(0, 0) : toMatrix(value, (cells) => context.book.budget.spend(cells));
        return value instanceof Areas || value instanceof Lambda ? ERROR.value : (value ?? null);
      });
      if (!inputs.some((input) => input instanceof Matrix)) return apply(inputs as Scalar[]);
      return broadcast(inputs, apply, context);
    });
  });
}
