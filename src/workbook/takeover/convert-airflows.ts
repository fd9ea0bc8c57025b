import { columnLetters, formatAddress } from "../../xlsx/index.js";
import { causeOf, comparedAirflows, differsFromInputs } from "../checks/support/compared-airflows.js";
import type { Cause } from "../checks/support/explain-difference.js";
import {
  AIRFLOW_KEYS,
  airflowFromReadings,
  type ListedOutlet,
  type OutletList,
  type ReadingColumns,
  rowCell,
} from "../lists/index.js";

/** One airflow whose plain formula a function could take the place of. */
export interface Conversion {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly address: string;
  readonly outlet: string;
  /** With its equals sign. */
  readonly oldFormula: string;
  readonly newFormula: string;
  /** As the sheet shows it; null where it shows none. */
  readonly oldValue: number | null;
  /** In the unit of the column; null while nothing was read. */
  readonly newValue: number | null;
  /** Why the two differ; null where they do not, or where no usual mistake fits. */
  readonly cause: Cause | null;
}

/** An airflow that stays as it is, and why. */
export interface NotConverted {
  readonly sheet: string;
  readonly address: string;
  readonly outlet: string;
  readonly reason: string;
}

export interface Conversions {
  readonly value: readonly Conversion[];
  readonly left: readonly NotConverted[];
}

const CALLS_VANE = /VANE[._]/i;

/** A figure of the row in the base unit of its column, as a formula takes it: `C7`, `C7*10`, `E7/100`. */
function figure({ columnScales }: OutletList, row: number, column: number): string {
  const cell = formatAddress(row, column);
  const scale = columnScales.get(column) ?? 1;
  if (scale === 1) return cell;
  const over = 1 / scale;
  return scale < 1 && Math.abs(over - Math.round(over)) < 1e-9 ? `${cell}/${Math.round(over)}` : `${cell}*${scale}`;
}

/** Cells of a row as one argument: a range where they are side by side. */
function block(row: number, columns: readonly number[]): string {
  const [first = 1] = columns;
  const last = columns.at(-1) ?? first;
  const isRange = columns.every((column, index) => column === first + index);
  if (columns.length === 1) return formatAddress(row, first);
  if (isRange) return `${formatAddress(row, first)}:${formatAddress(row, last)}`;
  const cells = columns.map((column) => formatAddress(row, column));
  return `CHOOSE({${cells.map((_, index) => index + 1).join(",")}},${cells.join(",")})`;
}

/** The same cells as COUNT takes them: a blank cell within CHOOSE would be a 0. */
function counted(row: number, columns: readonly number[]): string {
  const isRange = columns.every((column, index) => column === (columns[0] ?? 0) + index);
  return isRange ? block(row, columns) : columns.map((column) => formatAddress(row, column)).join(",");
}

interface Refused {
  readonly reason: string;
}

function factorText(list: OutletList, row: number): string {
  const column = list.columns.get("factor");
  const isGiven = column !== undefined && list.source.valueAt(row, column) !== null;
  const { factor, factorCell } = list.stated;
  if (!isGiven && factorCell !== undefined) return `$${columnLetters(factorCell.column)}$${factorCell.row}`;
  if (isGiven || factor === undefined) return column === undefined ? "" : figure(list, row, column);
  return String(factor);
}

/** The area that the average velocity is multiplied by, in ft² or m², where no width says it. */
function areaText({ list, opening, row: { row } }: ListedOutlet, isSi: boolean): string | Refused {
  const column = (key: "effectiveArea" | "freeArea" | "area" | "width" | "height" | "size") => list.columns.get(key);
  const free = opening.freeArea === null ? undefined : (column("effectiveArea") ?? column("freeArea"));
  if (free !== undefined) return figure(list, row, free);
  const [width, height] = [column("width"), column("height")];
  const factor = factorText(list, row);
  const times = factor === "" ? "*0.75" : factor === "1" ? "" : `*${factor}`;
  if (width !== undefined && height !== undefined && opening.height !== null) {
    const by = isSi ? "1000000" : "144";
    return `${figure(list, row, width)}*${figure(list, row, height)}/${by}${times}`;
  }
  const whole = column("area");
  if (whole !== undefined) return `${figure(list, row, whole)}${times}`;
  return column("size") === undefined
    ? { reason: "No column says the size of its opening, or a free area." }
    : { reason: "Its size is in one cell, which this formula cannot take apart. Add columns for width and height." };
}

/** The column of a size such as 14x6, which a function reads as its width with no height beside it. */
function sizeInOneCell({ list }: ListedOutlet): number | undefined {
  const column = list.columns.get("size");
  return column === undefined || list.columnScales.has(column) ? undefined : column;
}

/** The formula that calls a function of ours in place of a plain one. */
function newFormula(outlet: ListedOutlet, readings: ReadingColumns): string | Refused {
  const { list, opening } = outlet;
  const { row } = outlet.row;
  const velocityUnits = new Set(readings.columns.map((column) => list.columnUnits.get(column) ?? outlet.units));
  const [velocity = null] = velocityUnits;
  const flow = opening.flowUnits(readings.state);
  const sized = opening.freeArea === null && opening.width !== null ? opening.sizeUnits : opening.areaUnits;
  if (velocityUnits.size > 1 || velocity === null || flow !== velocity || (sized ?? velocity) !== velocity) {
    return { reason: "Its size, readings and airflow are not of one system of units." };
  }
  if (readings.columns.some((column) => list.columnScales.has(column)))
    return { reason: "Its readings are in a unit that no function takes." };
  const isSi = velocity === "si";
  const units = isSi ? ',"si"' : "";
  const cells = block(row, readings.columns);
  const count = `COUNT(${counted(row, readings.columns)})`;
  const airflow = list.columns.get(AIRFLOW_KEYS[readings.state]) ?? 0;
  const scale = list.columnScales.get(airflow) ?? 1;
  const times = scale === 1 ? "" : 1 / scale >= 1 ? `*${Number((1 / scale).toPrecision(15))}` : `/${scale}`;
  const quiet = (call: string) => `=IF(${count}=0,"",${call}${times})`;
  const [width, height, diameter] = (["width", "height", "diameter"] as const).map((key) => list.columns.get(key));
  const apart = opening.height === null ? (diameter ?? width) : width;
  const side = apart ?? sizeInOneCell(outlet);
  const isFace =
    readings.holds === "velocity" && opening.freeArea === null && side !== undefined && opening.width !== null;
  if (isFace) {
    const other =
      opening.height === null || height === undefined || apart === undefined ? "" : figure(list, row, height);
    const factor = factorText(list, row);
    const call = `VANE.AIRFLOW.FACE(${figure(list, row, side)},${other},${cells},${factor},${count}${units})`;
    return times === "" ? `=${call}` : quiet(call);
  }
  const area = areaText(outlet, isSi);
  if (typeof area !== "string") return area;
  const mean =
    readings.holds === "sweep"
      ? `VANE.SWEEP.AVERAGE(${cells},${block(row, readings.seconds)},${count})`
      : `AVERAGE(${counted(row, readings.columns)})`;
  return quiet(`VANE.AIRFLOW(${mean},${area},1${units})`);
}

function converted(outlet: ListedOutlet, readings: ReadingColumns): Conversion | NotConverted | null {
  const { list, tag } = outlet;
  const { row } = outlet.row;
  const column = list.columns.get(AIRFLOW_KEYS[readings.state]);
  const old = column === undefined ? undefined : list.source.formulaAt(row, column);
  if (column === undefined) return null;
  const place = { sheet: list.sheet, address: formatAddress(row, column), outlet: tag === "" ? `row ${row}` : tag };
  if (old === undefined) {
    const isTyped = rowCell(list, row, AIRFLOW_KEYS[readings.state]).kind !== "blank";
    return isTyped ? { ...place, reason: "It was typed; a typed value is never replaced." } : null;
  }
  if (CALLS_VANE.test(old)) return { ...place, reason: "It calls a VANE function already." };
  const formula = newFormula(outlet, readings);
  if (typeof formula !== "string") return { ...place, reason: formula.reason };
  const compared = comparedAirflows(outlet).find(({ readings: of }) => of.state === readings.state);
  const scale = list.columnScales.get(column) ?? 1;
  const cause = compared === undefined || !differsFromInputs(compared) ? undefined : causeOf(compared);
  return {
    ...place,
    row,
    column,
    oldFormula: `=${old}`,
    newFormula: formula,
    oldValue: compared === undefined ? null : compared.stated / scale,
    newValue: compared === undefined ? null : (airflowFromReadings(compared.inputs) ?? 0) / scale,
    cause: cause ?? null,
  };
}

/** Which rows and columns to convert. */
export interface ConversionChoice {
  /** Null for every sheet. */
  readonly sheet: string | null;
  /** The first and last row; null for every row. */
  readonly rows: readonly [first: number, last: number] | null;
  /** Letters of a column; null for every column of airflows. */
  readonly column: string | null;
}

/**
 * Says which plain formulas of airflows a function of ours could take the place of, with the old value, the new one and
 * why they differ. Changes nothing.
 */
export function conversionsOf(outlets: readonly ListedOutlet[], choice: ConversionChoice): Conversions {
  const value: Conversion[] = [];
  const left: NotConverted[] = [];
  for (const outlet of outlets) {
    const { list, row } = outlet;
    if (choice.sheet !== null && list.sheet.toLowerCase() !== choice.sheet.toLowerCase()) continue;
    if (choice.rows !== null && (row.row < choice.rows[0] || row.row > choice.rows[1])) continue;
    for (const readings of list.readings) {
      const column = list.columns.get(AIRFLOW_KEYS[readings.state]) ?? 0;
      if (choice.column !== null && columnLetters(column) !== choice.column.toUpperCase()) continue;
      const one = converted(outlet, readings);
      if (one === null) continue;
      if ("reason" in one) left.push(one);
      else value.push(one);
    }
  }
  return { value, left };
}
