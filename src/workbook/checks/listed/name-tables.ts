import { plainHeading } from "../../lists/index.js";
import type { SourceValue } from "../../source/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";

/** A workbook as far as its tables of names are looked for. */
export interface NamedSheets {
  readonly sheets: readonly { readonly lastRow: number; readonly lastColumn: number }[];
  /** Sheets count from 0, rows and columns from 1. */
  valueAt(sheet: number, row: number, column: number): SourceValue;
}

/** Names that a table of the workbook defines, such as its rooms: outlets are added up where they spell one of them. */
export interface NameTable {
  readonly sheet: number;
  readonly headerRow: number;
  /** Columns from 1, by heading in small letters. */
  readonly columns: ReadonlyMap<string, number>;
  readonly names: readonly TableName[];
}

export interface TableName {
  readonly row: number;
  /** As it is typed, with every space. */
  readonly text: string;
}

/** Nobody puts the headings of such a table lower or further right. */
const HEADING_ROWS = 60;
const HEADING_COLUMNS = 60;

interface Wanted {
  /** The heading over the names. */
  readonly name: string;
  /** A heading of the first group and one of each other must be there, none of the last. */
  readonly oneOf: readonly string[];
  readonly noneOf: readonly string[];
}

const WANTED = {
  rooms: {
    name: "room",
    oneOf: ["heating load", "cooling load", "design set", "volume"],
    noneOf: ["outlet", "kind", "factor"],
  },
  systems: {
    name: "system",
    oneOf: ["supply design", "fan airflow", "fan design"],
    noneOf: ["outlet", "room", "kind", "factor"],
  },
  instruments: {
    name: "instrument",
    oneOf: ["calibration due"],
    noneOf: ["outlet", "room", "kind", "factor"],
  },
  retests: {
    name: "drawn",
    oneOf: ["agreement"],
    noneOf: ["outlet", "kind", "factor"],
  },
} as const satisfies Readonly<Record<string, Wanted>>;

function headingsIn(index: NamedSheets, sheet: number, row: number): ReadonlyMap<string, number> {
  const headings = new Map<string, number>();
  const lastColumn = Math.min(index.sheets[sheet]?.lastColumn ?? 0, HEADING_COLUMNS);
  for (let column = 1; column <= lastColumn; column += 1) {
    const value = index.valueAt(sheet, row, column);
    if (typeof value !== "string") continue;
    const heading = plainHeading(value);
    if (heading !== "" && !headings.has(heading)) headings.set(heading, column);
  }
  return headings;
}

function tableOn(index: NamedSheets, sheet: number, { name, oneOf, noneOf }: Wanted): NameTable | undefined {
  const lastRow = index.sheets[sheet]?.lastRow ?? 0;
  for (let headerRow = 1; headerRow <= Math.min(lastRow, HEADING_ROWS); headerRow += 1) {
    const columns = headingsIn(index, sheet, headerRow);
    const column = columns.get(name);
    if (column === undefined || !oneOf.some((one) => columns.has(one)) || noneOf.some((one) => columns.has(one)))
      continue;
    const names: TableName[] = [];
    for (let row = headerRow + 1; row <= lastRow; row += 1) {
      const value = index.valueAt(sheet, row, column);
      const text = typeof value === "string" || typeof value === "number" ? String(value) : "";
      if (text.trim() !== "") names.push({ row, text });
    }
    return { sheet, headerRow, columns, names };
  }
  return undefined;
}

/** A heading that a table of rooms or systems has in our templates alone. */
const OUR_HEADING = "design of outlets";

/** The sheets of a workbook on which our tables of rooms and systems are, filled or not. */
export function sheetsOfSums(index: WorkbookIndex): readonly number[] {
  return index.sheets.flatMap((_, sheet) =>
    [WANTED.rooms, WANTED.systems].some((of) => tableOn(index, sheet, of)?.columns.has(OUR_HEADING)) ? [sheet] : [],
  );
}

/** The tables of a workbook that name its rooms, or its systems. A table without a name in it names nothing yet. */
export function nameTables(index: NamedSheets, of: "rooms" | "systems" | "instruments"): readonly NameTable[] {
  return tablesOf(index, of).filter(({ names }) => names.length > 0);
}

/** The records of re-tests in a workbook, begun or not; their names are the outlets that are drawn now. */
export function retestTables(index: WorkbookIndex): readonly NameTable[] {
  return tablesOf(index, "retests");
}

function tablesOf(index: NamedSheets, of: keyof typeof WANTED): readonly NameTable[] {
  return index.sheets.flatMap((_, sheet) => tableOn(index, sheet, WANTED[of]) ?? []);
}
