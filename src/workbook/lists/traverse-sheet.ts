import { formatAddress } from "../../xlsx/index.js";
import { type Finding, type FindingKind, findingAt, type LeftOut } from "../finding.js";
import { type SheetSource, type ShownCell, shownCell, shownText } from "../source/index.js";
import { MEND_SOURCE, quoted } from "./row-reader.js";
import { LET_CALCULATE, NOT_CALCULATED } from "./state-airflow.js";

/** The labels of a sheet for one duct traverse, as its template writes them; a value is beside its label. */
export const TRAVERSE_LABELS = {
  system: "Fan or unit",
  serves: "What the duct serves",
  note: "Note",
  width: "Width that the probe crosses, or diameter",
  height: "Height (empty: round duct)",
  design: "Design airflow",
  airflow: "Airflow",
  plusMinus: "± (95 %)",
  percent: "Percent of design",
  verdict: "Verdict",
} as const;

export type TraverseField = keyof typeof TRAVERSE_LABELS;

/** Over the readings: the column of points, and of each line the places; its readings are beside them. */
export const TRAVERSE_GRID = { point: "Point", line: "Line " } as const;

interface Place {
  readonly row: number;
  readonly column: number;
}

/** A sheet that holds one duct traverse, found by its labels. */
export interface TraverseSheet {
  readonly source: SheetSource;
  readonly sheet: string;
  readonly labels: ReadonlyMap<TraverseField, Place>;
  /** Every cell for a reading. */
  readonly readings: readonly Place[];
}

/** One duct as its traverse tells it. Null and "" are what the sheet does not say, never 0. */
export interface ListedTraverse {
  readonly sheet: string;
  /** The row of its airflow. */
  readonly row: number;
  /** What the duct serves, or else the name of the sheet. */
  readonly tag: string;
  readonly system: string;
  readonly width: number | null;
  readonly height: number | null;
  readonly design: number | null;
  readonly airflow: number | null;
  readonly plusMinus: number | null;
  readonly percent: ShownCell;
  readonly percentColumn: number | undefined;
  readonly verdict: string;
  readonly verdictColumn: number | undefined;
  readonly note: string;
  readonly findings: readonly Finding[];
}

const FIELDS = Object.keys(TRAVERSE_LABELS) as readonly TraverseField[];
const FIELD_OF: ReadonlyMap<string, TraverseField> = new Map([
  ...FIELDS.map((field) => [TRAVERSE_LABELS[field], field] as const),
  // As sheets of an earlier version have it.
  ["±", "plusMinus"],
]);

/** Labels by which the sheet is known; a few may be lost. */
const TELLING: readonly TraverseField[] = ["system", "serves", "width", "height", "design", "airflow"];
const LEAST_TELLING = 4;

/** Within so many rows and columns the template has everything. */
const ROWS = 60;
const COLUMNS = 40;
/** A value is at most so many columns beside its label; its unit is behind it. */
const BESIDE = 5;
/** Under the headings of the readings, before the velocities that follow from them. */
const GRID_ROWS = 12;

function traverseOn(source: SheetSource): TraverseSheet | undefined {
  const labels = new Map<TraverseField, Place>();
  const lines: Place[] = [];
  const named = new Set<string>();
  let pointRow = 0;
  const lastColumn = Math.min(source.lastColumn, COLUMNS);
  for (const row of source.rowsFrom(1)) {
    if (row > ROWS) break;
    for (let column = 1; column <= lastColumn; column += 1) {
      const text = source.valueAt(row, column);
      if (typeof text !== "string") continue;
      const field = FIELD_OF.get(text.trim());
      if (field !== undefined && !labels.has(field)) labels.set(field, { row, column });
      if (pointRow === 0 && text === TRAVERSE_GRID.point) pointRow = row;
      // The same lines stand once more beside, as one block for the formulas.
      if (row === pointRow && text.startsWith(TRAVERSE_GRID.line) && !named.has(text)) {
        named.add(text);
        lines.push({ row, column: column + 1 });
      }
    }
  }
  if (TELLING.filter((field) => labels.has(field)).length < LEAST_TELLING || lines.length === 0) return undefined;
  return { source, sheet: source.name, labels, readings: gridCells(pointRow, lines) };
}

/** The rows under the headings: a row of units, then one for each point. */
function gridCells(pointRow: number, lines: readonly Place[]): readonly Place[] {
  const rows = Array.from({ length: GRID_ROWS }, (_, index) => pointRow + 1 + index);
  return rows.flatMap((row) => lines.map(({ column }) => ({ row, column })));
}

/** Finds the sheets that hold one duct traverse each. */
export function traversesOn(sheets: readonly SheetSource[]): readonly TraverseSheet[] {
  return sheets.flatMap((source) => traverseOn(source) ?? []);
}

const BLANK: ShownCell = { kind: "blank" };

interface FoundValue extends Place {
  readonly cell: ShownCell;
}

/** The first cell beside a label that is one of the kinds wanted. */
function beside(
  { source, labels }: TraverseSheet,
  field: TraverseField,
  isWanted: (cell: ShownCell) => boolean,
  within = BESIDE,
): FoundValue {
  const label = labels.get(field);
  if (label === undefined) return { row: 1, column: 1, cell: BLANK };
  const { row } = label;
  for (let column = label.column + 1; column <= label.column + within; column += 1) {
    const cell = shownCell(source, row, column);
    if (isWanted(cell)) return { row, column, cell };
  }
  return { row, column: label.column, cell: BLANK };
}

/** What stands in place of a number before its unit: a text, an error. */
function numberBeside(traverse: TraverseSheet, field: TraverseField): FoundValue {
  return beside(traverse, field, (cell) => cell.kind === "number" || cell.kind === "error");
}

interface TraverseReader {
  readonly traverse: TraverseSheet;
  readonly findings: Finding[];
}

function addFinding(
  { traverse, findings }: TraverseReader,
  kind: FindingKind,
  leftOut: LeftOut,
  at: Place,
  problem: string,
  action: string,
) {
  findings.push(findingAt([traverse.sheet, formatAddress(at.row, at.column)], kind, leftOut, problem, action));
}

function numberOf(reader: TraverseReader, field: TraverseField, leftOut: LeftOut): number | null {
  const { cell, ...at } = numberBeside(reader.traverse, field);
  if (cell.kind === "number") return cell.value;
  if (cell.kind === "error") {
    addFinding(reader, "error-value", leftOut, at, `${TRAVERSE_LABELS[field]} shows ${cell.value}.`, MEND_SOURCE);
  }
  return null;
}

/** Says why readings gave no airflow. */
function unread(reader: TraverseReader, width: number | null): void {
  const { labels, readings } = reader.traverse;
  const at = labels.get("airflow") ?? readings[0] ?? { row: 1, column: 1 };
  if (!labels.has("airflow")) {
    const problem = `Readings were taken, but the sheet has lost its label “${TRAVERSE_LABELS.airflow}”.`;
    addFinding(reader, "missing-column", "outlet", at, problem, "Put it back.");
  } else if (width === null) {
    const problem = "Readings were taken, but the size of the duct is missing, so there is no airflow.";
    addFinding(reader, "unfinished-row", "outlet", at, problem, "Enter it.");
  } else {
    addFinding(reader, "not-calculated", "outlet", at, NOT_CALCULATED, LET_CALCULATE);
  }
}

/** Reads one traverse; undefined while nothing of it is entered. */
export function readTraverse(traverse: TraverseSheet): ListedTraverse | undefined {
  const reader: TraverseReader = { traverse, findings: [] };
  const { source, sheet, labels } = traverse;
  const isRead = traverse.readings.some(({ row, column }) => {
    return shownCell(source, row, column).kind !== "blank" && !source.hasFormula(row, column);
  });
  // A text is next to its label: further on stands the label of something else.
  const text = (field: TraverseField) =>
    shownText(beside(traverse, field, ({ kind }) => kind === "text" || kind === "number", 1).cell);
  const width = numberOf(reader, "width", "nothing");
  const height = numberOf(reader, "height", "nothing");
  const design = numberOf(reader, "design", "outlet");
  const hasUnclear = reader.findings.length > 0;
  const airflow = numberOf(reader, "airflow", "outlet");
  if (!isRead && airflow === null && design === null && !hasUnclear) return undefined;
  if (isRead && airflow === null && reader.findings.every(({ leftOut }) => leftOut !== "outlet")) unread(reader, width);
  const percent = numberBeside(traverse, "percent");
  const verdict = beside(traverse, "verdict", ({ kind }) => kind === "text");
  return {
    sheet,
    row: labels.get("airflow")?.row ?? 1,
    tag: quoted(text("serves")) || sheet,
    system: text("system"),
    width: width === 0 ? null : width,
    height: height === 0 ? null : height,
    design: design === 0 ? null : design,
    airflow,
    plusMinus: numberOf(reader, "plusMinus", "nothing"),
    percent: percent.cell,
    percentColumn: percent.column,
    verdict: shownText(verdict.cell),
    verdictColumn: verdict.column,
    note: text("note"),
    findings: reader.findings,
  };
}
