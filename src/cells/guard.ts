import { DomainError } from "../core/index.js";
import { CellError, wrongInput } from "./cell-error.js";

/** What a cell can show. An error stands inside a block only; a single result throws it. */
export type CellResult = number | string | boolean | CellError;

/** Nothing measured yet: shown as an empty cell, so that a half-filled sheet stays quiet. */
export const NOTHING_YET = "";

/** Unit endings of core's parameter names, longest first. */
const UNIT_ENDING =
  /(?:BtuPerHour|BtuPerLb|CfmPerTon|PerHour|FlowCfm|FlowsCfm|Flow|LbFt3|DegF|InWg|Percent|Ratio|Seconds|Fpm|Cfm|Ft2|Ft3|In2|Psi|Btuh|Tons?|Ft|In|F|Hp|Rpm)$/;

/** Arguments that a cell function calls by the trade's word where core names the quantity. */
const TRADE_WORDS: Readonly<Record<string, string>> = {
  freeAreaRatio: "factor",
  expandedFlow: "plusMinus",
  ofReadingPercent: "percent",
  pointsPerDiameter: "points",
  pointsPerSide: "points",
  readingFpm: "velocity",
  repeatedMeans: "repeats",
  velocitiesFpm: "readings",
  bedroomCount: "bedrooms",
  capacityTons: "capacity",
  fanMaximumFlow: "fanMost",
  flowCfm: "airflow",
  flowCfmPerTon: "perTon",
  sensibleLoadBtuPerHour: "sensible",
  systemFlowCfm: "systemAirflow",
};

/** Returns a sentence of core's in the words of the cell function: core's parameter names without their units. */
function inCellWords(sentence: string): string {
  return sentence.replace(/\b[a-z]+[A-Z]\w*/g, (word) => TRADE_WORDS[word] ?? word.replace(UNIT_ENDING, ""));
}

/**
 * Turns what a formula throws into what a cell shows.
 *
 * A `CellError` passes; a `DomainError` becomes `#VALUE!` under the argument's own name. Whatever else is thrown is
 * a defect of ours, and still names itself instead of leaving the cell without a word.
 */
export function asCellError(thrown: unknown): CellError {
  if (thrown instanceof CellError) return thrown;
  if (thrown instanceof DomainError) return wrongInput(inCellWords(`${thrown.parameter} must be ${thrown.expected}.`));
  return wrongInput(`This formula failed unexpectedly (${String(thrown)}). Please report it with its arguments.`);
}

/** What stands for a result that no cell can hold. */
function tooLarge(): CellError {
  return wrongInput("The result is too large to calculate with. Check the size of these arguments.");
}

/** Refuses a result that a cell cannot show, so that NaN or an infinity never reaches a host. */
function checked<Result extends CellResult | CellResult[][]>(result: Result): Result {
  if (Array.isArray(result)) checkBlock(result);
  else if (typeof result === "number" && !Number.isFinite(result)) throw tooLarge();
  return result;
}

/** The same for a block of results, where each bad one becomes an error in its own cell. */
function checkBlock(rows: CellResult[][]): void {
  if (rows.length === 0 || rows[0]?.length === 0) {
    throw wrongInput("An argument is an empty block. Give every argument a range of at least one cell.");
  }
  for (const row of rows) {
    for (let column = 0; column < row.length; column += 1) {
      const value = row[column];
      if (typeof value === "number" && !Number.isFinite(value)) row[column] = tooLarge();
    }
  }
  if (rows.length === 1 && rows[0]?.length === 1 && rows[0][0] instanceof CellError) throw rows[0][0];
}

/** Calls a formula and lets only a cell's own values and errors out. */
export function guard<Result extends CellResult | CellResult[][]>(formula: () => Result): Result {
  try {
    return checked(formula());
  } catch (thrown) {
    throw asCellError(thrown);
  }
}

/** The same for one cell of a block: an error becomes the cell's value and its neighbours stay. */
export function guardCell(formula: () => CellResult): CellResult {
  try {
    return checked(formula());
  } catch (thrown) {
    return asCellError(thrown);
  }
}
