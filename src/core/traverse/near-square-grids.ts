import type { Count, Inch } from "../units/quantity.js";
import { exceeds, ROUNDING_ALLOWANCE } from "./exceeds.js";
import { MOST_POINTS_PER_LINE } from "./point-limits.js";

/** Longest that a cell may be against its width: near-square, well inside the 1 to 2 of ST-18 §3.4. */
export const LONGEST_CELL_RATIO = 1.5;

/** A division of a rectangle into equal cells. */
export interface EqualAreaGrid {
  /** Cells across the width. */
  readonly columns: Count;
  /** Cells up the height. */
  readonly rows: Count;
}

/** Returns the smallest whole number that is not below a value, rounding aside. */
export function wholeAtLeast(value: number): number {
  return Math.ceil(value / ROUNDING_ALLOWANCE);
}

/** Returns the largest whole number that is not above a value, rounding aside. */
export function wholeAtMost(value: number): number {
  return Math.floor(value * ROUNDING_ALLOWANCE);
}

/** Long side of a cell over its short side. */
export function cellSidesRatio(widthIn: Inch, heightIn: Inch, { columns, rows }: EqualAreaGrid): number {
  const ratio = (widthIn / heightIn) * (rows / columns);
  return Math.max(ratio, 1 / ratio);
}

/** Returns, for each number of columns, the grid with the rows asked for, if its cells are near-square. */
export function nearSquareGrids(
  widthIn: Inch,
  heightIn: Inch,
  rowsFor: (columns: Count) => Count,
): readonly EqualAreaGrid[] {
  return Array.from({ length: MOST_POINTS_PER_LINE }, (_, index) => ({ columns: index + 1, rows: rowsFor(index + 1) }))
    .filter(({ rows }) => rows >= 1 && rows <= MOST_POINTS_PER_LINE)
    .filter((grid) => !exceeds(cellSidesRatio(widthIn, heightIn, grid), LONGEST_CELL_RATIO));
}

/** Returns the number of points of a grid. */
export function pointsOf({ columns, rows }: EqualAreaGrid): Count {
  return columns * rows;
}
