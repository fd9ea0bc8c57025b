import { formatAddress } from "../../xlsx/address.js";
import type { BlockEdit, CellBlock, CellValue, WorkbookHost } from "../host.js";
import { factorColumn, heightColumn, widthColumn } from "../template/common-columns.js";
import type { Placement, Refusal } from "./placement.js";
import type { KnownTable, RowPlace } from "./sheet-place.js";
import type { TakenMeasurement } from "./taken.js";

/** What goes into one cell of the row, under its header. */
type RowCell = readonly [header: string, content: number | null];

const TABLE_NAMES: Readonly<Record<KnownTable, string>> = {
  outlets: "outlets",
  sweeps: "face sweeps",
  changes: "before and after",
};

/** Readings that a row takes: the letter before their number. */
function readingLetter({ table, phase }: RowPlace): string {
  if (table === "changes") return phase === "after" ? "A" : "B";
  return table === "sweeps" ? "V" : "R";
}

function headersOf(place: RowPlace, letter: string): readonly string[] {
  const headers: string[] = [];
  while (place.columns.has(`${letter}${headers.length + 1}`)) headers.push(`${letter}${headers.length + 1}`);
  return headers;
}

function filled(headers: readonly string[], contents: readonly (number | null)[]): readonly RowCell[] {
  return headers.map((header, index) => [header, contents[index] ?? null]);
}

function readingCells(place: RowPlace, taken: TakenMeasurement): readonly RowCell[] | Refusal {
  const headers = headersOf(place, readingLetter(place));
  const isSweeps = taken.kind === "face sweeps";
  if (place.table === "sweeps" && !isSweeps) {
    return {
      refusal:
        "This table takes timed sweeps, not readings at points. Choose a row of another table, or an empty cell.",
    };
  }
  if (place.table !== "sweeps" && isSweeps && new Set(taken.sweeps.map(({ seconds }) => seconds)).size > 1) {
    return {
      refusal:
        "Sweeps of unequal length need their times, and this table has no place for them. Choose a row of a face sweep sheet, or an empty cell.",
    };
  }
  const contents = isSweeps ? taken.sweeps.map(({ velocity }) => velocity) : taken.readings;
  const kept = contents.length > headers.length ? contents.filter((content) => content !== null) : contents;
  if (kept.length > headers.length) {
    return {
      refusal: `A row here takes ${headers.length} readings and ${kept.length} were taken. Choose an empty cell, where all of them find a place.`,
    };
  }
  const cells = filled(headers, kept);
  if (place.table !== "sweeps" || !isSweeps) return cells;
  const seconds = filled(
    headersOf(place, "s"),
    taken.sweeps.map((sweep) => sweep.seconds),
  );
  return [...cells, ...seconds];
}

function sizeCells(taken: TakenMeasurement): readonly RowCell[] {
  const { size } = taken;
  return [
    [widthColumn.header, size.shape === "round" ? size.diameter : size.width],
    [heightColumn.header, size.shape === "round" ? null : size.height],
    [factorColumn.header, taken.kind === "duct" ? 1 : taken.factor],
  ];
}

const isBlank = (value: CellValue | undefined) => value === null || value === undefined || value === "";

function shown(value: CellValue | undefined): string {
  return typeof value === "object" && value !== null ? value.error : String(value);
}

/** What differs from what stands there; a cell that is filled the same way is no loss. */
function replaced(cells: readonly RowCell[], blocks: readonly CellBlock[]): readonly string[] {
  return cells.flatMap(([header, content], index) => {
    const present = blocks[index]?.values[0]?.[0];
    return isBlank(present) || present === content ? [] : [`${header}: ${shown(present)}`];
  });
}

function whereIs({ table, sheet, row, tag, phase }: RowPlace): string {
  const name = tag === "" ? `row ${row}` : `${tag}, row ${row}`;
  const readings = table === "changes" ? `, readings ${phase}` : "";
  return `${name} of the table of ${TABLE_NAMES[table]} on sheet “${sheet}”${readings}`;
}

/** Plans a measurement into a row of a known table: sizes, factor, readings; the row's own formulas do the rest. */
export async function rowPlacement(
  host: WorkbookHost,
  place: RowPlace,
  taken: TakenMeasurement,
): Promise<Placement | Refusal> {
  const readings = readingCells(place, taken);
  if ("refusal" in readings) return readings;
  const cells = [...sizeCells(taken), ...readings];
  const addressOf = (header: string) => ({
    sheet: place.sheet,
    range: formatAddress(place.row, place.columns.get(header) ?? 0),
  });
  const missing = cells.find(([header]) => !place.columns.has(header));
  if (missing !== undefined)
    return { refusal: `The table has lost its column “${missing[0]}”. Put it back, or choose an empty cell.` };
  const blocks = await host.read(cells.map(([header]) => addressOf(header)));
  const edits = cells.map(([header, content]): BlockEdit => ({ address: addressOf(header), cells: [[content]] }));
  const result = place.table === "changes" ? `Airflow ${place.phase}` : "Airflow";
  return { where: whereIs(place), edits, replaces: replaced(cells, blocks), resultAt: addressOf(result) };
}
