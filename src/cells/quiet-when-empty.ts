import { type CellResult, NOTHING_YET } from "./guard.js";
import { isGiven } from "./read-range.js";

/** A row of a sheet in which nothing stands yet stays empty; a value without its companion is asked for. */
export function quietWhenEmpty(values: readonly unknown[], result: () => CellResult): CellResult {
  return values.some(isGiven) ? result() : NOTHING_YET;
}
