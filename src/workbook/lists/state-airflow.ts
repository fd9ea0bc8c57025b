import type { UnitSystemName } from "../../core/index.js";
import type { ShownCell } from "../source/index.js";
import { airflowFromReadings } from "./airflow-from-readings.js";
import type { ReadingState } from "./columns.js";
import { hasRowFormula, rowCell, scaledCell } from "./list-rows.js";
import type { ListedAirflow, RowOpening } from "./listed-outlet.js";
import { type ReadingColumns, readingsOf } from "./outlet-list.js";
import { addFinding, type NumberRange, quoted, type RowReader, takeNumber } from "./row-reader.js";

/** The column of the airflow of each state. */
export const AIRFLOW_KEYS = { now: "airflow", found: "found", left: "left" } as const;

/** Readings without the result of their formula, and what to do. */
export const NOT_CALCULATED = "Readings were taken, but the sheet has not calculated the airflow.";
export const LET_CALCULATE = "Let it calculate, and save it.";

const NONE: ListedAirflow = { flow: null, from: null };

/** The numbers of a block of cells, in their order; undefined where one of them holds something else. */
function numbersIn({ list, row }: RowReader, columns: readonly number[]): readonly number[] | undefined {
  const cells = columns.map((column) => scaledCell(list, row, column)).filter(({ kind }) => kind !== "blank");
  const numbers = cells.flatMap((cell) => (cell.kind === "number" ? cell.value : []));
  return numbers.length === cells.length ? numbers : undefined;
}

/** Which reading of a row is no number, in words. */
function unclearReading({ list, row }: RowReader, columns: readonly number[]): string {
  const column = columns.find((one) => !["blank", "number"].includes(scaledCell(list, row, one).kind)) ?? 0;
  const cell = scaledCell(list, row, column);
  const heading = String(list.source.valueAt(list.headerRow, column) ?? "A reading");
  if (cell.kind === "text") return `${heading} says “${quoted(cell.value)}”, which is not a number`;
  return `${heading} ${cell.kind === "error" ? `shows ${cell.value}` : "is not calculated"}`;
}

function hasAny(reader: RowReader, columns: readonly number[]): boolean {
  const { list, row } = reader;
  return columns.some((column) => scaledCell(list, row, column).kind !== "blank");
}

/** What keeps readings from becoming an airflow; undefined where nothing does. */
function lacking(reader: RowReader, readings: ReadingColumns, opening: RowOpening): string | undefined {
  const velocities = numbersIn(reader, readings.columns);
  if (velocities === undefined) return unclearReading(reader, readings.columns);
  if (readings.holds === "sweep") {
    const seconds = numbersIn(reader, readings.seconds);
    if (seconds === undefined) return unclearReading(reader, readings.seconds);
    if (seconds.length !== velocities.length) return "the time of a sweep is missing";
  }
  if (opening.isUnclear) return "its size or factor cannot be read";
  if (opening.velocityFactor === null) return "its velocity factor is missing, as the job states no air temperature";
  const { width, area, freeArea } = opening;
  return width === null && area === null && freeArea === null ? "the size of its opening is missing" : undefined;
}

/** The airflow of a row whose readings no formula takes, worked out from them. */
function workedOut(reader: RowReader, readings: ReadingColumns, opening: RowOpening): number | null {
  const velocities = numbersIn(reader, readings.columns);
  const seconds = readings.holds === "sweep" ? numbersIn(reader, readings.seconds) : null;
  const velocityUnits = unitsOfReadings(reader, readings, opening.units);
  const flowUnits = opening.flowUnits(readings.state);
  if (velocities === undefined || seconds === undefined || velocityUnits === null || flowUnits === null) return null;
  const sizeUnits = opening.sizeUnits ?? velocityUnits;
  const areaUnits = opening.areaUnits ?? velocityUnits;
  return airflowFromReadings({ ...opening, sizeUnits, areaUnits, velocityUnits, flowUnits, velocities, seconds });
}

/** The units of readings; null where their columns differ, or nobody states them. */
function unitsOfReadings(
  { list }: RowReader,
  { columns }: ReadingColumns,
  units: UnitSystemName | null,
): UnitSystemName | null {
  const stated = new Set(columns.map((column) => list.columnUnits.get(column) ?? units));
  const [only = null] = stated;
  return stated.size === 1 ? only : null;
}

/** What a formula shows while nothing was read: an average of no readings is a division by zero. */
const isNothingYet = (cell: ShownCell) =>
  cell.kind === "not calculated" || (cell.kind === "error" && cell.value === "#DIV/0!");

/**
 * Takes the airflow of one state of a row: what its cell shows or, where no formula is there to show it, what follows
 * from the row's own readings. Readings from which no airflow follows are a finding, never silence.
 */
export function stateAirflow(
  reader: RowReader,
  state: ReadingState,
  range: NumberRange,
  opening: RowOpening,
): ListedAirflow {
  const { list, row } = reader;
  const key = AIRFLOW_KEYS[state];
  const cell = rowCell(list, row, key);
  const readings = readingsOf(list, state);
  const isRead = () => readings !== undefined && hasAny(reader, readings.columns);
  if (isNothingYet(cell) && readings !== undefined && !isRead()) return NONE;
  if (cell.kind !== "blank") {
    const flow = takeNumber(reader, key, cell, range, "outlet");
    return flow === null ? NONE : { flow, from: "cell" };
  }
  if (readings === undefined || !isRead()) return NONE;
  const [column = 1] = readings.columns;
  const missing = lacking(reader, readings, opening);
  if (missing !== undefined) {
    const problem = `Readings were taken, but ${missing}, so there is no airflow.`;
    addFinding(reader, "unfinished-row", "outlet", column, problem, "Enter what is missing.");
    return NONE;
  }
  if (hasRowFormula(list, row, key)) {
    addFinding(reader, "not-calculated", "outlet", key, NOT_CALCULATED, LET_CALCULATE);
    return NONE;
  }
  const flow = workedOut(reader, readings, opening);
  if (flow === null) {
    const problem = "Readings were taken, but no airflow follows from them.";
    addFinding(reader, "unfinished-row", "outlet", column, problem, "Check its size, factor and units.");
    return NONE;
  }
  const problem = "The row has no formula for its airflow; it was worked out from the readings.";
  addFinding(reader, "worked-out", "nothing", key, problem, "Fill the formulas down.");
  return { flow, from: "readings" };
}
