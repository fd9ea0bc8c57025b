import { DomainError } from "../check/domain-error.js";
import { requirePositive, requireWhole } from "../check/require.js";
import type { Count, Inch } from "../units/quantity.js";
import {
  cellSidesRatio,
  type EqualAreaGrid,
  LONGEST_CELL_RATIO,
  nearSquareGrids,
  pointsOf,
  wholeAtMost,
} from "./near-square-grids.js";

/**
 * Returns the largest grid of near-square cells that holds no more than a number of points.
 *
 * Most columns · rows at or below the number allowed, with the sides of a cell at most 1.5 to 1; among equals the
 * squarest cells
 *
 * @param widthIn - Inside width, above 0 [in]
 * @param heightIn - Inside height, above 0 [in]
 * @param mostPoints - Largest number of points, 1 or more
 * @returns Columns and rows
 * @throws {DomainError} When an argument is outside its range, or the duct is too flat for so few near-square cells
 * @source Bay Area AQMD Manual of Procedures vol. IV, ST-18, §3.4 (sides of a cell 1 to 2; 1.5 is our choice)
 * @example
 * largestEqualAreaGrid(96, 60, 64) // => { columns: 9, rows: 7 }
 */
export function largestEqualAreaGrid(widthIn: Inch, heightIn: Inch, mostPoints: Count): EqualAreaGrid {
  requirePositive("widthIn", widthIn);
  requirePositive("heightIn", heightIn);
  requireWhole("mostPoints", mostPoints, 1);
  const suitable = nearSquareGrids(widthIn, heightIn, (columns) =>
    Math.min(Math.floor(mostPoints / columns), wholeAtMost((heightIn / widthIn) * columns * LONGEST_CELL_RATIO)),
  );
  const [best] = [...suitable].sort(
    (one, other) =>
      pointsOf(other) - pointsOf(one) ||
      cellSidesRatio(widthIn, heightIn, one) - cellSidesRatio(widthIn, heightIn, other),
  );
  if (best !== undefined) return best;
  throw new DomainError("mostPoints", "enough for near-square cells; the duct is too flat for so few", mostPoints);
}
