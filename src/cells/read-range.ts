import { PLAUSIBLE } from "../../shared/tables/plausible-ranges.js";
import { averageFromSum } from "../core/index.js";
import { CellError, missingInput, wrongInput } from "./cell-error.js";

/*
 * The one place that tells blank, zero and text apart.
 *
 * Excel hands a blank cell to a function as 0 inside a range, and as 0 or null where one cell is meant; an omitted
 * argument is null. A 0 is therefore either a dead spot or an empty cell, and only the person's own COUNT can tell.
 */

/** An omitted argument, or a cell that is known to hold nothing. */
export function isBlank(value: unknown): boolean {
  return value === null || value === undefined || value === "";
}

/** Says whether an argument for which zero makes no sense was given: 0 is how Excel hands over a blank cell. */
export function isGiven(value: unknown): boolean {
  return !isBlank(value) && value !== 0;
}

/** Returns the rows of an argument; one value is a block of one row and one column. */
export function asBlock(value: unknown): readonly (readonly unknown[])[] {
  return Array.isArray(value) ? value : [[value]];
}

/** Returns the only cell of a one-cell block, and anything else as it is. */
export function asSingle(value: unknown): unknown {
  if (!Array.isArray(value)) return value;
  return value.length === 1 && value[0]?.length === 1 ? value[0][0] : value;
}

function describe(value: unknown): string {
  if (typeof value === "string") return value.trim() === "" ? "only spaces" : `the text “${value.slice(0, 40)}”`;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (Array.isArray(value)) return "a block of cells";
  return "something that is not a number";
}

/** Returns a number, passes on the error of a cell, and refuses text, truth values and blocks. */
function numberOf(where: string, value: unknown): number {
  if (typeof value === "number") {
    if (Number.isFinite(value)) return value;
    throw wrongInput(`${where} is not a finite number.`);
  }
  if (value instanceof CellError)
    throw new CellError(value.code, `${where} is in error: ${value.message || value.code}`);
  throw wrongInput(`${where} holds ${describe(value)}. Enter a number.`);
}

/**
 * Reads an argument without which there is no result, and for which 0 means "not given".
 *
 * @throws {CellError} `#N/A` when blank or 0, `#VALUE!` when not a number
 */
export function readNeeded(argument: string, value: unknown): number {
  // The usual argument: one number, and not the 0 of a blank cell.
  if (typeof value === "number" && value !== 0 && Number.isFinite(value)) return value;
  const single = asSingle(value);
  if (!isGiven(single)) throw missingInput(`${argument} is missing. Enter it, or point to the cell that holds it.`);
  return numberOf(argument, single);
}

/** Reads an optional argument for which 0 means "not given". */
export function readOptional<Default>(argument: string, value: unknown, whenNotGiven: Default): number | Default {
  // The usual argument: one number, and not the 0 of a blank cell.
  if (typeof value === "number" && value !== 0 && Number.isFinite(value)) return value;
  const single = asSingle(value);
  return isGiven(single) ? numberOf(argument, single) : whenNotGiven;
}

/** Reads an optional argument for which 0 is a real value, such as a temperature or an elevation. */
export function readOptionalZero<Default>(argument: string, value: unknown, whenOmitted: Default): number | Default {
  const single = asSingle(value);
  return isBlank(single) ? whenOmitted : numberOf(argument, single);
}

/**
 * Reads a needed argument for which 0 is a real value and a blank cell cannot be told from it.
 *
 * @throws {CellError} `#N/A` when omitted or known to be blank, `#VALUE!` when not a number
 */
export function readNeededZero(argument: string, value: unknown): number {
  const single = asSingle(value);
  if (isBlank(single)) throw missingInput(`${argument} is missing. Enter it, or point to the cell that holds it.`);
  return numberOf(argument, single);
}

/** Reads an optional yes or no; blank and 0 are no, 1 is yes. */
export function readFlag(argument: string, value: unknown): boolean {
  const single = asSingle(value);
  if (!isGiven(single) || single === false) return false;
  if (single === true || single === 1) return true;
  if (single instanceof CellError) numberOf(argument, single);
  throw wrongInput(`${argument} must be TRUE or FALSE.`);
}

/** Reads `taken`, the number of readings that the person has counted; null when omitted. */
export function readTaken(value: unknown): number | null {
  const single = asSingle(value);
  if (isBlank(single)) return null;
  const taken = numberOf("taken", single);
  if (Number.isSafeInteger(taken) && taken >= 0) return taken;
  throw wrongInput("taken must be a whole number: COUNT of the same cells, for example COUNT(B2:B9).");
}

/** Readings of one block: those that are not zero, in order, and how many true zeros stand among them. */
export interface Readings {
  readonly values: readonly number[];
  readonly zeros: number;
}

/**
 * Reads a block of readings; null when nothing has been measured yet.
 *
 * With `taken`, the native COUNT of the same cells, zeros that were typed count and blank cells do not. Without it a
 * 0 or blank cell among readings is refused, since Excel hands over both as 0.
 *
 * @throws {CellError} `#VALUE!` with the row and column of text, of a truth value, or of an undecided zero
 */
export function readReadings(argument: string, block: unknown, taken: unknown): Readings | null {
  const rows = asBlock(block);
  const { count, undecided } = surveyReadings(argument, rows);
  const zeros = decideZeros(argument, rows, count, undecided, taken);
  if (count + zeros === 0) return null;
  const [only] = rows;
  // One row of readings and nothing else, as each outlet of a large block has it, is taken as it is.
  if (rows.length === 1 && only?.length === count) return { values: only as readonly number[], zeros };
  const values: number[] = [];
  for (const cells of rows) for (const value of cells) if (isReading(value)) values.push(value);
  return { values, zeros };
}

/**
 * Reads the mean of a block of readings, by the rules of `readReadings` but without a copy of them.
 *
 * @throws {CellError} As `readReadings`
 */
export function readMean(argument: string, block: unknown, taken: unknown): number | null {
  const rows = asBlock(block);
  const plain = isBlank(taken) ? plainMean(rows) : null;
  if (plain !== null) return plain;
  const { sum, count, undecided } = surveyReadings(argument, rows);
  const zeros = decideZeros(argument, rows, count, undecided, taken);
  return count + zeros === 0 ? null : averageFromSum(sum, count + zeros);
}

/** The velocity above which a number among readings is looked at again [fpm or m/s]. */
const HIGHEST_PLAIN = PLAUSIBLE.velocity.most;

/** Returns the mean of a block in which every cell is a reading that raises no question; null for any other. */
function plainMean(rows: readonly (readonly unknown[])[]): number | null {
  let sum = 0;
  let count = 0;
  for (let row = 0; row < rows.length; row += 1) {
    const cells = rows[row] as readonly unknown[];
    for (let column = 0; column < cells.length; column += 1) {
      const value = cells[column];
      if (typeof value !== "number" || value === 0 || value > HIGHEST_PLAIN) return null;
      sum += value;
    }
    count += cells.length;
  }
  return count > 0 && Number.isFinite(sum) ? averageFromSum(sum, count) : null;
}

function isReading(value: unknown): value is number {
  return typeof value === "number" && value !== 0;
}

/** Whether a cell may be a dead spot or may be empty; empty text is neither, since a formula put it there. */
function isUndecided(value: unknown): boolean {
  return value === 0 || value === null || value === undefined;
}

function placeIn(argument: string, row: number, column: number): string {
  return `${argument}, row ${row + 1}, column ${column + 1},`;
}

/** What one pass over a block finds: its readings' sum and number, and how many cells are zero or blank. */
interface Survey {
  readonly sum: number;
  readonly count: number;
  readonly undecided: number;
}

/** Goes once through a block, and refuses what is neither a number nor empty. */
function surveyReadings(argument: string, rows: readonly (readonly unknown[])[]): Survey {
  let sum = 0;
  let count = 0;
  let undecided = 0;
  let largest = 0;
  for (let row = 0; row < rows.length; row += 1) {
    const cells = rows[row] as readonly unknown[];
    for (let column = 0; column < cells.length; column += 1) {
      const value = cells[column];
      if (isReading(value)) {
        sum += value;
        count += 1;
        if (value > largest) largest = value;
      } else if (isUndecided(value)) undecided += 1;
      else if (value !== "") numberOf(placeIn(argument, row, column), value);
    }
  }
  // A finite sum has only finite readings in it; so the usual case looks at each but once.
  if (!Number.isFinite(sum)) requireEachFinite(argument, rows);
  if (largest > PLAUSIBLE.velocity.most && VELOCITIES.includes(argument)) refuseDate(argument, rows, largest);
  return { sum, count, undecided };
}

/** Arguments that hold velocities and nothing else. */
const VELOCITIES: readonly string[] = ["readings", "velocities"];

/** A cell formatted as a date reaches a function as the number of its day. */
function refuseDate(argument: string, rows: readonly (readonly unknown[])[], largest: number): never {
  const row = rows.findIndex((cells) => cells.includes(largest));
  const place = placeIn(argument, row, rows[row]?.indexOf(largest) ?? 0);
  throw wrongInput(`${place} is ${largest}: a date, or a lost decimal point? No air moves so fast.`);
}

function requireEachFinite(argument: string, rows: readonly (readonly unknown[])[]): void {
  rows.forEach((cells, row) => {
    cells.forEach((value, column) => {
      if (typeof value === "number") numberOf(placeIn(argument, row, column), value);
    });
  });
}

/** Returns how many of the undecided cells are true zeros. */
function decideZeros(
  argument: string,
  rows: readonly (readonly unknown[])[],
  count: number,
  undecided: number,
  taken: unknown,
): number {
  const told = readTaken(taken);
  if (told === null) {
    if (count === 0 || undecided === 0) return 0;
    throw wrongInput(
      `${firstUndecided(argument, rows)} is 0 or blank, and Excel does not say which. Add the argument taken = COUNT of the same cells: zeros then count as dead spots and blanks do not.`,
    );
  }
  if (told < count || told > count + undecided) {
    throw wrongInput(
      `taken is ${told}, but ${argument} holds ${count} readings and ${undecided} zeros or blanks. Give taken as COUNT of the same cells.`,
    );
  }
  return told - count;
}

function firstUndecided(argument: string, rows: readonly (readonly unknown[])[]): string {
  const row = rows.findIndex((cells) => cells.findIndex(isUndecided) >= 0);
  return placeIn(argument, row, rows[row]?.findIndex(isUndecided) ?? 0);
}

/** Returns the readings as one list, true zeros last: what core's averages take. */
export function allReadings(readings: Readings): readonly number[] {
  if (readings.zeros === 0) return readings.values;
  return [...readings.values, ...new Array<number>(readings.zeros).fill(0)];
}

/**
 * Reads one measured quantity, null when nothing has been measured yet.
 *
 * A measured 0 (a dead outlet) needs `taken`, as among readings: 1 says that the 0 was measured.
 */
export function readMeasured(argument: string, value: unknown, taken: unknown): number | null {
  const single = asSingle(value);
  if (single === "") return null;
  if (isGiven(single)) return numberOf(argument, single);
  const count = readTaken(taken);
  if (count === null) {
    throw missingInput(`${argument} is blank or 0. If 0 was measured, add the argument taken = COUNT of that cell.`);
  }
  return count === 0 ? null : 0;
}
