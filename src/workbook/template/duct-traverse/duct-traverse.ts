import { jobLine, titledJobLine } from "../job-line.js";
import { JOB_NAMES, jobSheet } from "../job-sheet.js";
import { notesSheet } from "../notes-sheet.js";
import { unit, verdictFormats } from "../plain-formulas.js";
import { cell, EMPTY_SHEET } from "../plan-parts.js";
import type { CellPlan, SheetPlan, TemplatePlan, ValidationPlan } from "../sheet-plan.js";
import {
  NUMBER_INPUTS,
  PLANE,
  RESULTS,
  STEPS,
  TEXT_INPUTS,
  type TraverseInput,
  type TraverseResult,
} from "./fields.js";
import { GRID_CELLS, GRID_FORMATS, GRID_MERGES, GRID_VALIDATIONS } from "./grids.js";
import { DUCT_TRAVERSE_NOTES } from "./notes.js";
import { CELLS, LINES, ovalColumn, placeColumn, ROWS, readingColumn } from "./places.js";

/** Where a column of fields stands: its label, its value, its unit. */
interface FieldColumns {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
}

const rowOf = (index: number) => ROWS.firstField + index;

function inputCells(inputs: readonly TraverseInput[], columns: FieldColumns): readonly CellPlan[] {
  return inputs.flatMap((input, index) => [
    cell(`${columns.label}${rowOf(index)}`, input.label, "label"),
    cell(`${columns.value}${rowOf(index)}`, input.start, input.style),
    ...(input.unit === "" ? [] : [cell(`${columns.unit}${rowOf(index)}`, input.unit, "unitBeside")]),
  ]);
}

function inputValidations(inputs: readonly TraverseInput[], column: string): readonly ValidationPlan[] {
  return inputs.map((input, index) => ({ range: `${column}${rowOf(index)}`, ...input.rule }));
}

function resultCells(results: readonly TraverseResult[], columns: FieldColumns): readonly CellPlan[] {
  return results.flatMap((result, index) => [
    cell(`${columns.label}${rowOf(index)}`, result.label, "label"),
    cell(`${columns.value}${rowOf(index)}`, result.formula, "resultCenter", result.format),
    cell(`${columns.unit}${rowOf(index)}`, result.unit === "" ? null : result.unit, "unitBeside"),
  ]);
}

const LAST_COLUMN = readingColumn(LINES);

/** The printed page ends behind the third line, where the section of duct and probe ends too. */
const FIRST_PAGE_END = readingColumn(3);
const SECOND_PAGE_START = placeColumn(4);

function section(at: string, last: string, text: string): readonly CellPlan[] {
  const row = at.replace(/[A-Z]+/, "");
  const from = at.charCodeAt(0);
  return Array.from({ length: last.charCodeAt(0) - from + 1 }, (_, index) =>
    cell(`${String.fromCharCode(from + index)}${row}`, index === 0 ? text : null, "section"),
  );
}

function traverseSheet(name: string): SheetPlan {
  const resultRows = RESULTS.map((_, index) => rowOf(index));
  return {
    ...EMPTY_SHEET,
    name,
    role: "work",
    columnWidths: [
      20,
      21,
      ...Array.from({ length: LINES }, () => [12, 8]).flat(),
      3,
      ...Array.from({ length: LINES }, () => 8),
      3,
      ...Array.from({ length: LINES }, () => 12),
    ],
    rowHeights: { 1: 26, [ROWS.gridHeader]: 28, [ROWS.sections]: 20, [ROWS.readings]: 22, [ROWS.velocities]: 22 },
    cells: [
      cell("A1", "Duct traverse", "title"),
      cell("A2", jobLine(), "lead"),
      cell(`${SECOND_PAGE_START}2`, titledJobLine("Duct traverse"), "lead"),
      ...section(`A${ROWS.sections}`, "B", "What and where"),
      ...section(`C${ROWS.sections}`, "H", "Duct and probe"),
      ...section(`J${ROWS.sections}`, "R", "Result"),
      ...inputCells(TEXT_INPUTS, { label: "A", value: "B", unit: "B" }),
      ...inputCells(NUMBER_INPUTS, { label: "C", value: "G", unit: "H" }),
      ...resultCells(RESULTS, { label: "J", value: "N", unit: "P" }),
      ...resultRows.map((row) => cell(`O${row}`, null, "resultCenter")),
      cell(`A${ROWS.plane}`, "Plane", "label"),
      cell(`B${ROWS.plane}`, PLANE, "resultText"),
      ...["C", "D", "E", "F", "G", "H"].map((column) => cell(`${column}${ROWS.plane}`, null, "resultText")),
      ...section(`A${ROWS.readings}`, LAST_COLUMN, "Readings"),
      cell(
        `A${ROWS.readingsLead}`,
        "Depths count from the outside of the wall. Type 0 for a dead spot; leave empty what was not read.",
        "lead",
      ),
      cell(`A${ROWS.gridHeader}`, "Point", "header"),
      cell(`B${ROWS.gridHeader}`, "Depth, as a tape is read", "header"),
      cell(
        `A${ROWS.gridPlaces}`,
        `=IF(${CELLS.kind}="pressure",${unitOf("in.w.c.", "Pa")},${unitOf("fpm", "m/s")})`,
        "unit",
      ),
      cell(`B${ROWS.gridPlaces}`, unit("in", "mm"), "unit"),
      ...section(`A${ROWS.velocities}`, LAST_COLUMN, "Velocity at each point"),
      cell(`A${ROWS.velocityHeader}`, "Point", "header"),
      cell(`B${ROWS.velocityHeader}`, unit("fpm", "m/s"), "header"),
      ...GRID_CELLS,
      cell(`T${ROWS.sections}`, "Steps between", "section"),
      ...resultCells(STEPS, { label: "T", value: "Z", unit: "AA" }),
      cell(`T${ROWS.readingsLead}`, "The readings once more, as one block for the formulas", "lead"),
      cell(`${ovalColumn(1)}${ROWS.readingsLead}`, "Flat oval: the depths of each line", "lead"),
    ],
    merges: [...GRID_MERGES, ...resultRows.map((row) => `N${row}:O${row}`), `B${ROWS.plane}:H${ROWS.plane}`],
    frozen: { rows: 2, columns: 0 },
    validations: [...inputValidations(TEXT_INPUTS, "B"), ...inputValidations(NUMBER_INPUTS, "G"), ...GRID_VALIDATIONS],
    conditionalFormats: [
      ...verdictFormats("N14"),
      {
        kind: "formula",
        range: "N8",
        formula: `AND(COUNT(${CELLS.planned})=1,${CELLS.taken}>0,${CELLS.taken}<>${CELLS.planned})`,
        style: "low",
      },
      { kind: "formula", range: `B${ROWS.plane}`, formula: `LEFT($B$${ROWS.plane},4)="move"`, style: "low" },
      { kind: "formula", range: `B${ROWS.plane}`, formula: `LEFT($B$${ROWS.plane},5)="plane"`, style: "within" },
      ...GRID_FORMATS,
    ],
    print: {
      orientation: "portrait",
      area: `A1:${LAST_COLUMN}${ROWS.velocityLast}`,
      repeatedRows: "1:2",
      fitToPagesHigh: null,
      // What was entered and the first three lines, then the result and the other lines: text of 10 points at 8.
      sideBySide: { breakAfter: [FIRST_PAGE_END], repeatedColumns: null, scalePercent: 80 },
    },
  };
}

function unitOf(inchPound: string, metric: string): string {
  return unit(inchPound, metric).slice(1);
}

/**
 * One traverse plane of a duct, round, rectangular or flat oval: the plan with its depths, the readings, and what follows.
 *
 * @param suffix - Put behind every sheet name where a workbook holds a second traverse; "" otherwise
 */
export function ductTraverse(suffix: string): TemplatePlan {
  return {
    template: "duct-traverse",
    title: "Duct traverse",
    description: "Airflow in a duct from readings at planned points, with the insertion depth beside each.",
    sheets: [
      jobSheet(),
      traverseSheet(`Duct traverse${suffix}`),
      notesSheet(
        `Duct traverse notes${suffix}`,
        "How to take a traverse, what it assumes, and what to be careful about.",
        ...DUCT_TRAVERSE_NOTES,
      ),
    ],
    names: [...JOB_NAMES],
  };
}
