import { UNITS } from "../plain-formulas.js";
import { cell, numberInput } from "../plan-parts.js";
import type { CellPlan, ConditionalFormatPlan, ValidationPlan } from "../sheet-plan.js";
import { IS_OVAL, MAJOR, MINOR } from "./fields.js";
import {
  blockColumn,
  CELLS,
  LINE_NUMBERS,
  ovalColumn,
  POINT_NUMBERS,
  placeColumn,
  ROWS,
  readingColumn,
} from "./places.js";

const NAMES = "ABCDEFGH";
const nameOf = (line: number) => NAMES.charAt(line - 1);

function depths(across: string, along: string, count: string, wall: string, index: number): string {
  return `INDEX(VANE.TRAVERSE.DEPTHS(${across},${along},${count},${CELLS.rule},${wall},TRUE,${UNITS}),${index})`;
}

/** The lines of an oval have depths of their own, and one rule alone. */
const OVAL_WORDS = `IF(${CELLS.height}="","flat oval: enter both sides",IF(OR(${CELLS.rule}="",${CELLS.rule}="equal area"),"beside each cell","flat oval: equal area only"))`;

/** The first depth shows what is wrong with the plan; the others stay empty beyond its last point. */
function depthFormula(point: number): string {
  const depth = depths(CELLS.width, CELLS.height, CELLS.points, CELLS.wall, point);
  const [ofOval, shown] = point === 1 ? [OVAL_WORDS, depth] : ['""', `IFERROR(${depth},"")`];
  return `=IF(${CELLS.width}="","",IF(${IS_OVAL},${ofOval},${shown}))`;
}

const IS_PLANNED_OVAL = `AND(${IS_OVAL},COUNT(${CELLS.width},${CELLS.height})=2,OR(${CELLS.rule}="",${CELLS.rule}="equal area"))`;

/** Where the hole of a line of an oval is (place 0), or how deep a point on it; an error beyond the plan. */
function ovalPlace(line: number, place: number): string {
  const plan = `VANE.TRAVERSE.OVAL(${MAJOR},${MINOR},${CELLS.lines},${CELLS.points},${CELLS.wall},TRUE,${UNITS})`;
  return `INDEX(${plan},${line},${place + 1})`;
}

function ovalFormula(line: number, point: number): string {
  const place = ovalPlace(line, point);
  return `=IF(${IS_PLANNED_OVAL},${line === 1 && point === 1 ? place : `IFERROR(${place},"")`},"")`;
}

/** Where a line is: how far up the height, or how far round a round duct. */
function lineFormula(line: number): string {
  const usual = `IF(OR(${CELLS.rule}="equal area",${CELLS.rule}="Method 1"),2,3)`;
  const count = `IF(${CELLS.lines}="",${usual},${CELLS.lines})`;
  const turned = `IF(${line}>${count},"","turned "&ROUND(${line - 1}*180/${count},0)&"°")`;
  const up = `IFERROR("up "&${depths(CELLS.height, CELLS.width, CELLS.lines, "0", line)},"")`;
  const ofOval = `IF(${IS_PLANNED_OVAL},IFERROR(${ovalPlace(line, 0)}&" from end",""),"")`;
  return `=IF(${CELLS.width}="","",IF(${IS_OVAL},${ofOval},IF(${CELLS.height}="",${turned},${up})))`;
}

function placeFormula(line: number, point: number): string {
  const depth = `$B${ROWS.gridFirst + point - 1}`;
  const own = `${ovalColumn(line)}${ROWS.gridFirst + point - 1}`;
  const ofOval = `IF(${own}="","","${nameOf(line)}${point} · "&${own})`;
  return `=IF(${IS_OVAL},${ofOval},IF(OR(${depth}="",COUNT(${CELLS.linesUsed})=0),"",IF(${line}>${CELLS.linesUsed},"","${nameOf(line)}${point} · "&${depth})))`;
}

function lineHead(line: number): readonly CellPlan[] {
  const [place, reading, block] = [placeColumn(line), readingColumn(line), blockColumn(line)];
  return [
    cell(`${place}${ROWS.gridHeader}`, `Line ${nameOf(line)}`, "header"),
    cell(`${reading}${ROWS.gridHeader}`, null, "header"),
    cell(`${place}${ROWS.gridPlaces}`, lineFormula(line), "unit"),
    cell(`${reading}${ROWS.gridPlaces}`, null, "unit"),
    cell(`${place}${ROWS.velocityHeader}`, `Line ${nameOf(line)}`, "header"),
    cell(`${reading}${ROWS.velocityHeader}`, null, "header"),
    cell(`${block}${ROWS.gridHeader}`, `Line ${nameOf(line)}`, "header"),
    cell(`${ovalColumn(line)}${ROWS.gridHeader}`, `Oval, line ${nameOf(line)}`, "header"),
  ];
}

function pointCells(line: number, point: number): readonly CellPlan[] {
  const row = ROWS.gridFirst + point - 1;
  const velocityRow = ROWS.velocityFirst + point - 1;
  const [place, reading] = [placeColumn(line), readingColumn(line)];
  const taken = `${reading}${row}`;
  const root = `${CELLS.unitPressure}*${CELLS.densityRatio}*SQRT(MAX(${taken},0))`;
  return [
    cell(`${place}${row}`, placeFormula(line, point), "place"),
    cell(taken, null, "input"),
    cell(`${place}${velocityRow}`, `=IF(${place}${row}="","","${nameOf(line)}${point}")`, "place"),
    cell(
      `${reading}${velocityRow}`,
      `=IF(${taken}="","",IF(${CELLS.kind}="pressure",${root},${taken}))`,
      "result",
      "oneDecimal",
    ),
    cell(`${ovalColumn(line)}${row}`, ovalFormula(line, point), "resultCenter"),
    cell(`${blockColumn(line)}${row}`, `=IF(${taken}="","",${taken})`, "result"),
  ];
}

function rowHeads(point: number): readonly CellPlan[] {
  const row = ROWS.gridFirst + point - 1;
  return [
    cell(`A${row}`, `Point ${point}`, "label"),
    cell(`B${row}`, depthFormula(point), "resultCenter"),
    cell(`A${ROWS.velocityFirst + point - 1}`, `Point ${point}`, "label"),
  ];
}

/** The grid of input cells with place and depth beside each, the same as one block, and the velocities. */
export const GRID_CELLS: readonly CellPlan[] = [
  ...LINE_NUMBERS.flatMap(lineHead),
  ...POINT_NUMBERS.flatMap((point) => [...rowHeads(point), ...LINE_NUMBERS.flatMap((line) => pointCells(line, point))]),
];

export const GRID_MERGES: readonly string[] = LINE_NUMBERS.flatMap((line) =>
  [ROWS.gridHeader, ROWS.gridPlaces, ROWS.velocityHeader].map(
    (row) => `${placeColumn(line)}${row}:${readingColumn(line)}${row}`,
  ),
);

const READING = numberInput(
  "Reading",
  "At the depth beside the cell. 0 is a dead spot, empty is not measured; reverse flow is negative.",
  -20000,
  20000,
);

export const GRID_VALIDATIONS: readonly ValidationPlan[] = LINE_NUMBERS.map((line) => ({
  range: `${readingColumn(line)}${ROWS.gridFirst}:${readingColumn(line)}${ROWS.gridLast}`,
  ...READING,
}));

/** Cells outside the plan turn grey; the velocities show the profile. */
export const GRID_FORMATS: readonly ConditionalFormatPlan[] = [
  ...LINE_NUMBERS.map((line) => ({
    kind: "formula" as const,
    range: `${readingColumn(line)}${ROWS.gridFirst}:${readingColumn(line)}${ROWS.gridLast}`,
    formula: `$${placeColumn(line)}${ROWS.gridFirst}=""`,
    style: "outside" as const,
  })),
  {
    kind: "scale",
    range: LINE_NUMBERS.map(
      (line) => `${readingColumn(line)}${ROWS.velocityFirst}:${readingColumn(line)}${ROWS.velocityLast}`,
    ).join(" "),
    lowColor: "FFFFFF",
    highColor: "6FA8C7",
  },
];
