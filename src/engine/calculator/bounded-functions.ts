import type { EngineArgument } from "../exchange.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";

/** A function of the library, called on the context of a formula. */
type LibraryFunction = (this: object, ...given: EngineArgument[]) => unknown;

/** The library's functions, and what each says of its arguments. */
export interface FunctionLibrary {
  readonly mapping: Readonly<Record<string, unknown>>;
  readonly content: Readonly<Record<string, { readonly args: readonly { readonly acceptMatrix?: boolean }[] }>>;
}

/** Thrown where a function is asked for more than can be held; the message says why the formula keeps its result. */
export class BeyondLimitError extends Error {}

/** Functions that make as many cells as numbers say: the arguments whose product that is. */
const MADE_BY_NUMBERS: ReadonlyMap<string, readonly number[]> = new Map([
  ["SEQUENCE", [0, 1]],
  ["RANDARRAY", [0, 1]],
  ["EXPAND", [1, 2]],
  ["MUNIT", [0, 0]],
  ["WRAPCOLS", [1]],
  ["WRAPROWS", [1]],
]);

/** Functions that count up one by one, through days or payments: which arguments say how far. */
const COUNTS_UP: ReadonlyMap<string, readonly number[]> = new Map([
  ["ISOWEEKNUM", [0]],
  ["WEEKNUM", [0]],
  ["WORKDAY", [0, 1]],
  ["WORKDAY.INTL", [0, 1]],
  ["COUPDAYBS", [0, 1]],
  ["COUPDAYS", [0, 1]],
  ["COUPDAYSNC", [0, 1]],
  ["COUPNCD", [0, 1]],
  ["COUPNUM", [0, 1]],
  ["COUPPCD", [0, 1]],
  ["CUMIPMT", [1, 3, 4]],
  ["CUMPRINC", [1, 3, 4]],
  ["DB", [2, 3]],
  ["VDB", [2, 3, 4]],
]);

function numberIn(argument: EngineArgument): number {
  if (argument === undefined) return 1;
  const cell = "value" in argument ? argument : argument[0]?.[0];
  const number = Number(cell?.value ?? 0);
  return Number.isNaN(number) ? 0 : Math.abs(number);
}

/** How many cells arguments of these shapes make when each row of one meets each column of another. */
function cellsOfAll(given: readonly EngineArgument[]): number {
  let rows = 1;
  let columns = 1;
  for (const argument of given) {
    if (!Array.isArray(argument)) continue;
    columns = Math.max(columns, argument.length);
    rows = Math.max(rows, argument[0]?.length ?? 0);
  }
  return rows * columns;
}

function cellsMade(name: string, given: readonly EngineArgument[], spreads: boolean): number {
  const byNumbers = MADE_BY_NUMBERS.get(name);
  if (byNumbers !== undefined) return byNumbers.reduce((product, index) => product * numberIn(given[index]), 1);
  return spreads ? cellsOfAll(given) : 1;
}

function isBeyondCounting(argument: EngineArgument): boolean {
  if (argument === undefined) return false;
  if ("value" in argument) return numberIn(argument) > CALCULATION_LIMITS.steps;
  return argument.some((column) => column.some(isBeyondCounting));
}

function bounded(name: string, call: LibraryFunction, spreads: boolean): LibraryFunction {
  const counting = COUNTS_UP.get(name) ?? [];
  return function (...given) {
    if (cellsMade(name, given, spreads) > CALCULATION_LIMITS.cells) {
      throw new BeyondLimitError(`${name} would give more than ${CALCULATION_LIMITS.cells} cells`);
    }
    if (counting.some((index) => isBeyondCounting(given[index]))) {
      throw new BeyondLimitError(`${name} would have to count up to more than ${CALCULATION_LIMITS.steps}`);
    }
    return call.apply(this, given);
  };
}

/** Whether a function may give more cells than the largest block that it is given. */
function spreadsBlocks(name: string, args: readonly { readonly acceptMatrix?: boolean }[]): boolean {
  return name === "MMULT" || args.some(({ acceptMatrix }) => acceptMatrix !== true);
}

/**
 * The library's functions, each of which refuses, before it begins, what would exhaust memory or time.
 *
 * @throws {BeyondLimitError} By the functions, when they are called
 */
export function boundedFunctions({ mapping, content }: FunctionLibrary): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(mapping).map(([name, call]) => [
      name,
      bounded(name, call as LibraryFunction, spreadsBlocks(name, content[name]?.args ?? [])),
    ]),
  );
}
