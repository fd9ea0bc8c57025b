import {
  cfmFromLitersPerSecond,
  fpmFromMetersPerSecond,
  inchesFromMillimeters,
  litersPerSecondFromCfm,
  metersPerSecondFromFpm,
  millimetersFromInches,
  type UnitSystemName,
} from "../../core/index.js";
import { formatAddress } from "../../xlsx/address.js";
import type { BlockEdit, CellBlock, CellValue, WorkbookHost } from "../host.js";
import { UNSTATED_JOB } from "../job/index.js";
import {
  AIRFLOW_KEYS,
  hasRowFormula,
  LIST_COLUMNS,
  type ListColumnKey,
  type ListForm,
  type ReadingColumns,
  readingsOf,
  rowCell,
} from "../lists/index.js";
import { measuredResult } from "./measured-result.js";
import type { Placement, Refusal } from "./placement.js";
import type { RowPlace } from "./sheet-place.js";
import type { TakenMeasurement, TakenSize } from "./taken.js";

/** More digits than a tape or a meter has, and fewer than a conversion leaves. */
const DIGITS = 12;

/** What goes into one cell of the row, in the units of the measurement; a column that the list lacks is 0. */
interface RowCell {
  readonly heading: string;
  readonly column: number;
  readonly measures: "length" | "ratio" | "velocity" | "seconds" | "airflow";
  readonly content: number | null;
}

const SAME = (value: number) => value;

/** Into the units of a column that has others than the measurement. */
const CONVERTED: Readonly<Record<RowCell["measures"], Readonly<Record<UnitSystemName, (value: number) => number>>>> = {
  length: { ip: inchesFromMillimeters, si: millimetersFromInches },
  velocity: { ip: fpmFromMetersPerSecond, si: metersPerSecondFromFpm },
  airflow: { ip: cfmFromLitersPerSecond, si: litersPerSecondFromCfm },
  ratio: { ip: SAME, si: SAME },
  seconds: { ip: SAME, si: SAME },
};

/** A figure as its column has it: in the units of its heading, or of the mapping. */
function inColumn({ list }: RowPlace, { content, column, measures }: RowCell, units: UnitSystemName): number | null {
  if (content === null) return null;
  const own = list.columnUnits.get(column) ?? units;
  const scale = list.columnScales.get(column) ?? 1;
  const converted = own === units ? content : CONVERTED[measures][own](content);
  return own === units && scale === 1 ? content : Number((converted / scale).toPrecision(DIGITS));
}

const LIST_NAMES: Readonly<Record<ListForm, string>> = {
  "room balance": "outlets",
  "face sweep": "face sweeps",
  "before and after": "before and after",
  "job summary": "the job summary",
  own: "outlets",
};

const STATE_WORDS = { now: "", found: ", readings as found", left: ", readings as left" } as const;

function filled(
  { list: { source, headerRow } }: RowPlace,
  measures: RowCell["measures"],
  columns: readonly number[],
  contents: readonly (number | null)[],
): readonly RowCell[] {
  return columns.map((column, index) => ({
    heading: String(source.valueAt(headerRow, column) ?? "Reading"),
    column,
    measures,
    content: contents[index] ?? null,
  }));
}

/** Why readings do not go into the columns of a list; undefined where they do. */
function unfit(readings: ReadingColumns, taken: TakenMeasurement): string | undefined {
  const isSweeps = taken.kind === "face sweeps";
  if (readings.holds === "sweep" && !isSweeps)
    return "This table takes timed sweeps, not readings at points. Choose a row of another table, or an empty cell.";
  if (readings.holds === "velocity" && isSweeps && new Set(taken.sweeps.map(({ seconds }) => seconds)).size > 1)
    return "Sweeps of unequal length need their times, and this table has no place for them. Choose a row of a face sweep sheet, or an empty cell.";
  return undefined;
}

function readingCells(place: RowPlace, taken: TakenMeasurement): readonly RowCell[] | Refusal {
  const readings = readingsOf(place.list, place.state);
  // A list of airflows alone, as of a hood, takes the airflow.
  if (readings === undefined) return [];
  const refusal = unfit(readings, taken);
  if (refusal !== undefined) return { refusal };
  const isSweeps = taken.kind === "face sweeps";
  const contents = isSweeps ? taken.sweeps.map(({ velocity }) => velocity) : taken.readings;
  const { columns } = readings;
  const kept = contents.length > columns.length ? contents.filter((content) => content !== null) : contents;
  if (kept.length > columns.length) {
    return {
      refusal: `A row here takes ${columns.length} readings and ${kept.length} were taken. Choose an empty cell, where all of them find a place.`,
    };
  }
  const cells = filled(place, "velocity", columns, kept);
  if (readings.holds !== "sweep" || !isSweeps) return cells;
  const times = taken.sweeps.map((sweep) => sweep.seconds);
  return [...cells, ...filled(place, "seconds", readings.seconds, times)];
}

/** Somebody's own sheet says a size where it wants, or states a factor for every row: only columns that it has are filled. */
function isAsked(
  { list, row }: RowPlace,
  { column, key }: { readonly column: number; readonly key: ListColumnKey },
): boolean {
  return list.foundBy !== "mapping" || (column > 0 && !hasRowFormula(list, row, key));
}

/** What a row of a list can say of a size. */
type ListedSize = Exclude<TakenSize, { readonly shape: "flat oval" }>;

function sizeCells(place: RowPlace, taken: TakenMeasurement, size: ListedSize): readonly RowCell[] {
  const { list } = place;
  // A published area comes before any factor, and what it is of the whole area is not typed beside it.
  const hasPublishedArea = rowCell(list, place.row, "effectiveArea").kind === "number";
  const into = (key: "width" | "height" | "diameter" | "factor", content: number | null) => ({
    heading: LIST_COLUMNS[key].headings[0],
    column: list.columns.get(key) ?? 0,
    measures: key === "factor" ? ("ratio" as const) : ("length" as const),
    key,
    content,
  });
  const cells = [
    ...(size.shape === "round" && list.columns.has("diameter")
      ? [into("diameter", size.diameter)]
      : [
          into("width", size.shape === "round" ? size.diameter : size.width),
          into("height", size.shape === "round" ? null : size.height),
        ]),
    ...(hasPublishedArea ? [] : [into("factor", taken.kind === "duct" ? 1 : taken.factor)]),
  ];
  return cells.filter((cell) => isAsked(place, cell));
}

const isBlank = (value: CellValue | undefined) => value === null || value === undefined || value === "";

function shown(value: CellValue | undefined): string {
  return typeof value === "object" && value !== null ? value.error : String(value);
}

/** The airflow itself, where the list has a column in which every airflow is typed. */
function airflowCells(place: RowPlace, taken: TakenMeasurement): readonly RowCell[] {
  const column = place.list.columns.get(AIRFLOW_KEYS[place.state]);
  const result = place.isTyped && column !== undefined ? measuredResult(taken, UNSTATED_JOB) : null;
  return result === null || column === undefined ? [] : filled(place, "airflow", [column], [result.airflow]);
}

/** What differs from what stands there; a cell that is filled the same way is no loss. */
function replaced(cells: readonly RowCell[], blocks: readonly CellBlock[]): readonly string[] {
  return cells.flatMap(({ heading, content }, index) => {
    const present = blocks[index]?.values[0]?.[0];
    return isBlank(present) || present === content ? [] : [`${heading}: ${shown(present)}`];
  });
}

function whereIs({ list, row, tag, state }: RowPlace): string {
  const name = tag === "" ? `row ${row}` : `${tag}, row ${row}`;
  return `${name} of the table of ${LIST_NAMES[list.form]} on sheet “${list.sheet}”${STATE_WORDS[state]}`;
}

/** Plans a measurement into a row of a list: sizes, factor, readings; the row's own formulas do the rest. */
export async function rowPlacement(
  host: WorkbookHost,
  place: RowPlace,
  taken: TakenMeasurement,
): Promise<Placement | Refusal> {
  const { list, row, state } = place;
  if (taken.size.shape === "flat oval") {
    return { refusal: "A row here is round or rectangular, not flat oval. Choose a traverse sheet or an empty cell." };
  }
  const readings = readingCells(place, taken);
  if ("refusal" in readings) return readings;
  const cells = [...sizeCells(place, taken, taken.size), ...readings, ...airflowCells(place, taken)];
  const missing = cells.find(({ column }) => column === 0);
  if (missing !== undefined)
    return { refusal: `The table has lost its column “${missing.heading}”. Put it back, or choose an empty cell.` };
  const addressOf = (column: number) => ({ sheet: list.sheet, range: formatAddress(row, column) });
  const entered = cells.map((cell) => ({ ...cell, content: inColumn(place, cell, taken.units) }));
  const blocks = await host.read(entered.map(({ column }) => addressOf(column)));
  const edits = entered.map(({ column, content }): BlockEdit => ({ address: addressOf(column), cells: [[content]] }));
  const result = list.columns.get(AIRFLOW_KEYS[state]);
  return {
    where: whereIs(place),
    edits,
    replaces: replaced(entered, blocks),
    resultAt: result === undefined ? null : addressOf(result),
    resultScale:
      inColumn(place, { heading: "", column: result ?? 0, measures: "airflow", content: 1 }, taken.units) ?? 1,
  };
}
