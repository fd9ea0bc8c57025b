import { DomainError } from "../check/domain-error.js";
import { requirePositive, requireWhole } from "../check/require.js";
import type { Count, Inch } from "../units/quantity.js";
import {
  cellSidesRatio,
  type EqualAreaGrid,
  LONGEST_CELL_RATIO,
  nearSquareGrids,
  pointsOf,
  wholeAtLeast,
} from "./near-square-grids.js";
import { MOST_POINTS_PER_LINE } from "./point-limits.js";

/**
 * Returns the smallest grid of near-square cells that holds a number of points with centers close enough together.
 *
 * Least columns · rows at or above the number wanted, with width / columns and height / rows at or below the spacing
 * and the sides of a cell at most 1.5 to 1; among equals the squarest cells
 *
 * @param widthIn - Inside width, above 0 [in]
 * @param heightIn - Inside height, above 0 [in]
 * @param fewestPoints - Least number of points, 1 or more
 * @param spacingIn - Largest distance between the centers of neighboring cells, above 0; Infinity for any [in]
 * @returns Columns and rows
 * @throws {DomainError} When an argument is outside its range, or no grid of up to 200 by 200 cells will do
 * @source Bay Area AQMD Manual of Procedures vol. IV, ST-18, §3.4 (sides of a cell 1 to 2; 1.5 is our choice)
 * @example
 * equalAreaGrid(24, 12, 16, 6) // => { columns: 6, rows: 3 }
 */
export function equalAreaGrid(widthIn: Inch, heightIn: Inch, fewestPoints: Count, spacingIn: Inch): EqualAreaGrid {
  requirePositive("widthIn", widthIn);
  requirePositive("heightIn", heightIn);
  requireWhole("fewestPoints", fewestPoints, 1);
  if (!(spacingIn > 0)) throw new DomainError("spacingIn", "above 0", spacingIn);
  const suitable = nearSquareGrids(widthIn, heightIn, (columns) =>
    Math.max(
      wholeAtLeast(heightIn / spacingIn),
      wholeAtLeast(((heightIn / widthIn) * columns) / LONGEST_CELL_RATIO),
      Math.ceil(fewestPoints / columns),
    ),
  ).filter(({ columns }) => columns >= wholeAtLeast(widthIn / spacingIn));
  const [best] = [...suitable].sort(
    (one, other) =>
      pointsOf(one) - pointsOf(other) ||
      cellSidesRatio(widthIn, heightIn, one) - cellSidesRatio(widthIn, heightIn, other),
  );
  if (best !== undefined) return best;
  throw new DomainError(
    "spacingIn",
    `wide enough for at most ${MOST_POINTS_PER_LINE} by ${MOST_POINTS_PER_LINE} near-square cells`,
    spacingIn,
  );
}
