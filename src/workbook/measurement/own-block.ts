import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { formatAddress, formatRange } from "../../xlsx/address.js";
import { airflowUnit, velocityUnit } from "../job/index.js";
import type { EmptyPlace } from "./sheet-place.js";
import type { TakenFaceSweeps, TakenMeasurement, TakenPoints } from "./taken.js";

export type BlockCell = number | string | null;

/** A block of cells that explains itself, with the one cell whose formula gives the airflow. */
export interface OwnBlock {
  readonly cells: readonly (readonly BlockCell[])[];
  readonly resultAt: string;
}

/** Columns of labels, values and units, and the one kept free before the readings. */
const READINGS_OFFSET = 4;

const LINE_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

type Rows = readonly (readonly BlockCell[])[];

function pointRows(taken: TakenPoints): Rows {
  const lines = Array.from({ length: taken.lines }, (_, line) => line);
  const points = Array.from({ length: taken.pointsPerLine }, (_, point) => point);
  return [
    lines.map((line) => `Line ${LINE_LETTERS.charAt(line % LINE_LETTERS.length)}`),
    ...points.map((point) => lines.map((line) => taken.readings[line * taken.pointsPerLine + point] ?? null)),
  ];
}

function sweepRows(taken: TakenFaceSweeps): Rows {
  return [
    [`Sweep, ${velocityUnit(taken.units)}`, "Seconds"],
    ...taken.sweeps.map(({ velocity, seconds }) => [velocity, seconds]),
  ];
}

type Labelled = readonly [label: string, content: BlockCell, unit: string];

function sizeRows({ size, units }: TakenMeasurement): readonly Labelled[] {
  const unit = units === "si" ? "mm" : "in";
  if (size.shape === "round") return [["Diameter", size.diameter, unit]];
  const isOval = size.shape === "flat oval";
  const [across, up] = isOval ? [size.major, size.minor] : [size.width, size.height];
  return [
    [isOval ? "Flat oval, end to end" : "Width", across, unit],
    [isOval ? "Between its flat sides" : "Height", up, unit],
  ];
}

function factorRow(taken: TakenMeasurement): readonly Labelled[] {
  if (taken.kind === "duct") return [];
  const assumed = `empty: ${ASSUMED_FREE_AREA.metal.freeAreaRatio} is assumed`;
  return [["Factor", taken.factor, taken.factor === null ? assumed : "ratio"]];
}

interface Places {
  readonly width: string;
  readonly height: string;
  readonly factor: string;
  readonly readings: string;
  readonly seconds: string;
}

function airflowFormula(taken: TakenMeasurement, { width, height, factor, readings, seconds }: Places): string {
  const units = taken.units === "si" ? ',"si"' : "";
  if (taken.size.shape === "flat oval" && taken.kind === "duct") {
    const scale = taken.units === "si" ? "*1000" : "";
    return `=VANE.TRAVERSE.AVERAGE(${readings},COUNT(${readings}))*VANE.OPENING.OVAL(${width},${height}${units})${scale}`;
  }
  if (taken.kind === "duct") return `=VANE.AIRFLOW.DUCT(${width},${height},${readings},COUNT(${readings})${units})`;
  if (taken.kind === "face points") {
    return `=VANE.AIRFLOW.FACE(${width},${height},${readings},${factor},COUNT(${readings})${units})`;
  }
  const area =
    taken.size.shape === "round"
      ? `VANE.OPENING.ROUND(${width}${units})`
      : `VANE.OPENING.RECT(${width},${height}${units})`;
  const ratio = `IF(${factor}="",${ASSUMED_FREE_AREA.metal.freeAreaRatio},${factor})`;
  const scale = taken.units === "si" ? "*1000" : "";
  return `=VANE.SWEEP.AVERAGE(${readings},${seconds},COUNT(${readings}))*${area}*${ratio}${scale}`;
}

const TITLES = {
  duct: "Duct traverse",
  "face points": "Grille, readings at points",
  "face sweeps": "Grille, timed sweeps",
};

/** Lays a measurement out from an empty cell on: labelled inputs, one live formula, the readings beside. */
export function ownBlock(taken: TakenMeasurement, { row, column }: EmptyPlace): OwnBlock {
  const rows = taken.kind === "face sweeps" ? sweepRows(taken) : pointRows(taken);
  const inputs = [...sizeRows(taken), ...factorRow(taken)];
  const at = (rowOffset: number, columnOffset: number) => formatAddress(row + rowOffset, column + columnOffset);
  const heightRow = taken.size.shape === "round" ? null : 2;
  const columnOf = (offset: number) =>
    formatRange({
      firstRow: row + 1,
      lastRow: row + rows.length - 1,
      firstColumn: column + READINGS_OFFSET + offset,
      lastColumn: column + READINGS_OFFSET + (taken.kind === "face sweeps" ? offset : (rows[0]?.length ?? 1) - 1),
    });
  const formula = airflowFormula(taken, {
    width: at(1, 1),
    height: heightRow === null ? "" : at(heightRow, 1),
    factor: at(inputs.length, 1),
    readings: columnOf(0),
    seconds: columnOf(1),
  });
  const left: readonly Labelled[] = [
    [TITLES[taken.kind], null, ""],
    ...inputs,
    ["Airflow", formula, airflowUnit(taken.units)],
  ];
  const height = Math.max(left.length, rows.length);
  const width = rows[0]?.length ?? 0;
  const cells = Array.from({ length: height }, (_, index): readonly BlockCell[] => {
    const [label = null, content = null, unit = ""] = left[index] ?? [];
    const readings = rows[index] ?? Array.from({ length: width }, () => null);
    return [label, content, unit === "" ? null : unit, null, ...readings];
  });
  return { cells, resultAt: at(left.length - 1, 1) };
}
