import type { BalanceOutlet } from "../core/index.js";
import { CellError, wrongInput } from "./cell-error.js";
import { type CellResult, guardCell, NOTHING_YET } from "./guard.js";
import {
  asBlock,
  asSingle,
  isBlank,
  isGiven,
  readFlag,
  readNeeded,
  readOptional,
  readOptionalZero,
  readTaken,
} from "./read-range.js";

/** The columns of a balance sheet, as a host hands them over. */
export interface OutletColumns {
  readonly measured: unknown;
  readonly design: unknown;
  readonly names?: unknown;
  readonly branch?: unknown;
  readonly throttled?: unknown;
  readonly taken?: unknown;
  readonly order?: unknown;
  readonly round?: unknown;
  readonly averaged?: unknown;
}

/** An outlet of a sheet, with what its row says of the order of readings. */
export interface ListedOutlet extends BalanceOutlet {
  /** How many changes had been made when it was read; null where the sheet does not say. */
  readonly readAfter: number | null;
  /** Its airflow in the last round; null where the sheet does not say. */
  readonly roundFlow: number | null;
  /** Of how many readings its airflow is the average; null where the sheet does not say. */
  readonly averagedCount: number | null;
}

/** A row of the sheet: an outlet, a blank row, or what is wrong in it. */
export type OutletRow = ListedOutlet | CellError | null;

/** The rows of a block of outlets, and how to give a result for each in the shape of the block. */
export interface OutletBlock {
  readonly rows: readonly OutletRow[];
  /** The outlets alone, each named as the message calls it. */
  readonly outlets: readonly ListedOutlet[];
  /** Lays out one result a row; blank rows stay blank and a faulty row shows its error. */
  readonly spill: (result: (outlet: ListedOutlet) => CellResult) => CellResult[][];
}

/**
 * Reads the columns of a balance sheet.
 *
 * A row with neither reading nor design is no outlet and stays blank. A 0 or blank reading beside a design is an
 * outlet that nobody has read, unless `taken` says that every 0 was measured.
 *
 * @throws {CellError} `#VALUE!` when the columns differ in length or `taken` leaves open which zeros were measured
 */
export function readOutlets(columns: OutletColumns): OutletBlock {
  const block = asBlock(columns.measured);
  const shape = block.map((row) => row.length);
  if (shape.some((columns) => columns !== shape[0])) throw wrongInput("measured has rows of unequal length.");
  const measured = block.flat();
  const column = (argument: string, value: unknown) => columnOf(argument, value, measured.length);
  const design = column("design", columns.design);
  const names = column("names", columns.names);
  const branches = column("branch", columns.branch);
  const throttled = column("throttled", columns.throttled);
  const order = column("order", columns.order);
  const round = column("round", columns.round);
  const averaged = column("averaged", columns.averaged);
  const zerosAreMeasured = decideZeros(measured, design, readTaken(columns.taken));
  const rows = measured.map((reading, row): OutletRow => {
    if (!isGiven(reading) && !isGiven(design[row])) return null;
    return caught(() => {
      const name = isGiven(names[row]) ? String(names[row]) : `outlet ${row + 1}`;
      const designFlow = readNeeded(`design of ${name}`, design[row]);
      if (designFlow < 0) throw wrongInput(`design of ${name} must be above 0.`);
      return {
        name,
        branch: isGiven(branches[row]) ? String(branches[row]) : "",
        designFlow,
        measuredFlow: readReading(name, reading, zerosAreMeasured),
        damper: isThrottled(name, throttled[row]) ? "throttled" : "open",
        readAfter: readOrder(name, order[row]),
        roundFlow: readOptional(`round of ${name}`, round[row], null),
        averagedCount: readAveraged(name, averaged[row]),
      };
    });
  });
  return {
    rows,
    outlets: rows.filter((row): row is ListedOutlet => row !== null && !(row instanceof CellError)),
    spill: (result) =>
      laidOut(
        shape,
        rows.map((row) => resultOf(row, result)),
      ),
  };
}

/** How many changes had been made when an outlet was read; -1 for the word old, which is before any. */
function readOrder(name: string, value: unknown): number | null {
  if (typeof value === "string" && value.trim().toLowerCase() === "old") return -1;
  return readOptionalZero(`order of ${name}`, value, null);
}

function readAveraged(name: string, value: unknown): number | null {
  const count = readOptional(`averaged of ${name}`, value, null);
  if (count === null || (Number.isSafeInteger(count) && count >= 1)) return count;
  throw wrongInput(`averaged of ${name} must be how many readings were averaged, 1 or more.`);
}

/** Returns the outlets of a block; the first faulty row is thrown. For a result that needs every row. */
export function wholeOutlets({ rows, outlets }: OutletBlock): readonly ListedOutlet[] {
  const fault = rows.find((row) => row instanceof CellError);
  if (fault instanceof CellError) throw fault;
  return outlets;
}

/** Returns the names in a block, without its blank cells. */
export function readNames(block: unknown): readonly string[] {
  return asBlock(block).flat().filter(isGiven).map(String);
}

function resultOf(row: OutletRow, result: (outlet: ListedOutlet) => CellResult): CellResult {
  if (row === null) return NOTHING_YET;
  return row instanceof CellError ? row : guardCell(() => result(row));
}

function laidOut(shape: readonly number[], results: readonly CellResult[]): CellResult[][] {
  let next = 0;
  return shape.map((columns) => {
    const row = results.slice(next, next + columns);
    next += columns;
    return row;
  });
}

/** An omitted column is blank in every row. */
function columnOf(argument: string, value: unknown, length: number): readonly unknown[] {
  if (isBlank(asSingle(value))) return new Array<unknown>(length).fill(null);
  const cells = asBlock(value).flat();
  if (cells.length === length) return cells;
  throw wrongInput(`${argument} has ${cells.length} cells, but measured has ${length}. Give one for each outlet.`);
}

function decideZeros(measured: readonly unknown[], design: readonly unknown[], taken: number | null): boolean {
  if (taken === null) return false;
  const readings = measured.filter(isGiven).length;
  const zeros = measured.filter((reading, row) => !isGiven(reading) && isGiven(design[row])).length;
  if (taken === readings) return false;
  if (taken === readings + zeros) return true;
  throw wrongInput(
    `taken is ${taken}, but measured holds ${readings} readings and ${zeros} zeros or blanks: which of them were measured cannot be told. Clear or fill the cells of those outlets.`,
  );
}

function readReading(name: string, reading: unknown, zerosAreMeasured: boolean): number | undefined {
  if (isGiven(reading)) return readNeeded(`measured of ${name}`, reading);
  return zerosAreMeasured ? 0 : undefined;
}

function isThrottled(name: string, value: unknown): boolean {
  if (typeof value !== "string") return readFlag(`throttled of ${name}`, value);
  const word = value.trim().toLowerCase();
  if (word === "" || word === "no" || word === "open") return false;
  if (word === "x" || word === "yes" || word === "throttled") return true;
  throw wrongInput(`throttled of ${name} must be TRUE or FALSE, "throttled" or "open".`);
}

function caught(read: () => ListedOutlet): ListedOutlet | CellError {
  try {
    return read();
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}
