import { columnLetters } from "../../../xlsx/address.js";

/** How many lines and points the grid holds: enough for every usual layout up to 8 by 10. */
export const LINES = 8;
export const POINTS = 10;

/** Rows of the sheet. */
export const ROWS = {
  sections: 4,
  firstField: 5,
  plane: 19,
  readings: 21,
  readingsLead: 22,
  gridHeader: 23,
  gridPlaces: 24,
  gridFirst: 25,
  gridLast: 24 + POINTS,
  velocities: 36,
  velocityHeader: 37,
  velocityFirst: 38,
  velocityLast: 37 + POINTS,
} as const;

/** Fixed cells that the formulas name. */
export const CELLS = {
  kind: "$B$8",
  rule: "$B$9",
  oval: "$B$11",
  ovalLabel: "$A$11",
  width: "$G$5",
  height: "$G$6",
  wall: "$G$7",
  lines: "$G$8",
  points: "$G$9",
  before: "$G$10",
  after: "$G$11",
  design: "$G$13",
  coefficient: "$G$14",
  linesUsed: "$N$5",
  pointsUsed: "$N$6",
  planned: "$N$7",
  taken: "$N$8",
  area: "$N$9",
  velocity: "$N$10",
  airflow: "$N$11",
  plusMinus: "$N$12",
  percent: "$N$13",
  density: "$Z$5",
  densityRatio: "$Z$6",
  asRead: "$Z$7",
  unitPressure: "$Z$8",
  doubt: "$Z$9",
} as const;

/** Beside the cell that says whether the duct is flat oval; a sheet without it knows no such duct. */
export const OVAL_LABEL = "Flat oval duct";

/** Column of the label beside the input cells of a line; both count from 1. */
export function placeColumn(line: number): string {
  return columnLetters(1 + 2 * line);
}

/** Column of the input cells of a line. */
export function readingColumn(line: number): string {
  return columnLetters(2 + 2 * line);
}

/** Column of the same readings in the block that the cell functions take. */
export function blockColumn(line: number): string {
  return columnLetters(19 + line);
}

/** Column of the depths of a line of a flat oval, which are its own. */
export function ovalColumn(line: number): string {
  return columnLetters(28 + line);
}

export const BLOCK = `$${blockColumn(1)}$${ROWS.gridFirst}:$${blockColumn(LINES)}$${ROWS.gridLast}`;

export const LINE_NUMBERS = Array.from({ length: LINES }, (_, index) => index + 1);
export const POINT_NUMBERS = Array.from({ length: POINTS }, (_, index) => index + 1);
