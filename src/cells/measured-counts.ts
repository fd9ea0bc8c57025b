import { wrongInput } from "./cell-error.js";
import { asBlock, asSingle, readTaken } from "./read-range.js";

/**
 * Returns `taken` for each cell of a column that a formula goes through cell by cell.
 *
 * A column of counts is passed on as it is. One count over a whole column says of each 0 whether it was measured only
 * where it agrees with all of them or with none: one COUNT cannot tell which of two cells is blank.
 *
 * @throws {CellError} `#VALUE!` when one count leaves that open
 */
export function measuredCounts(argument: string, block: unknown, taken: unknown): unknown {
  const cells = asBlock(block).flat();
  const single = asSingle(taken);
  if (cells.length === 1 || Array.isArray(single)) return taken;
  const count = readTaken(single);
  if (count === null) return null;
  const readings = cells.filter((cell) => typeof cell === "number" && cell !== 0).length;
  const undecided = cells.filter((cell) => cell === 0 || cell === null || cell === undefined).length;
  if (count === readings) return 0;
  if (count === readings + undecided) return 1;
  throw wrongInput(
    `taken is ${count}, but ${argument} holds ${readings} readings and ${undecided} zeros or blanks. One count does not tell which were measured. Give taken as a column: COUNT of each cell.`,
  );
}
