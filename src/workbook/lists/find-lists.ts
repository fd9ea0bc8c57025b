import { formatAddress } from "../../xlsx/index.js";
import { type Finding, findingAt } from "../finding.js";
import type { SheetSource, SourceTable, WorkbookSource } from "../source/index.js";
import type { ColumnMapping } from "./column-mapping.js";
import { LIST_COLUMNS, type ListColumnKey, type ReadingHeading, type ReadingState } from "./columns.js";
import { readHeading } from "./heading.js";
import { type HeadingRow, headingRow } from "./heading-row.js";
import { MAPPED_UNITS } from "./mapped-unit.js";
import { mappingsIn } from "./mapping-names.js";
import type { ListForm, OutletList, ReadingColumns } from "./outlet-list.js";

/** Lists that were found, and what looks like one and cannot be read. */
export interface FoundLists {
  /** Sheet by sheet, from the top down. */
  readonly value: readonly OutletList[];
  readonly findings: readonly Finding[];
}

/** Nobody puts the first headings of a sheet lower or further right; those of further lists are found below it. */
const HEADING_ROWS = 60;
const HEADING_COLUMNS = 120;

/** So many rows may lie above one another as the headings of one list. */
const MOST_HEADING_ROWS = 3;

/** So many columns of a list make it likely that a row without the rest was meant to head one. */
const LIKELY_SCORE = 3;

/** Names that our templates give to sheets of outlets, and what spreadsheet programs put behind a copy. */
const OUR_SHEETS: readonly (readonly [ListForm, RegExp])[] = [
  ["room balance", /^outlets(?:$|[ _]?\(?\d)/i],
  ["job summary", /^job summary(?:$|[ _]?\(?\d)/i],
  ["before and after", /^before and after(?:$|[ _]?\(?\d)/i],
  ["face sweep", /^face sweep(?:$|[ _]?\(?\d)/i],
];

/** Columns that each form has besides those without which it is no list: a missing one is said. */
const EXPECTED: Readonly<Record<ListForm, readonly ListColumnKey[]>> = {
  "job summary": [
    ...(["jobId", "jobName", "date", "technician", "system", "room", "kind", "width", "height", "factor"] as const),
    ...(["assumed", "units", "plusMinus", "percent", "verdict", "note"] as const),
  ],
  "room balance": ["system", "room", "kind", "width", "height", "factor", "plusMinus", "percent", "verdict", "note"],
  "face sweep": ["system", "room", "kind", "width", "height", "factor", "plusMinus", "percent", "verdict", "note"],
  "before and after": ["system", "room", "kind", "width", "height", "factor", "leftPercent", "leftVerdict", "note"],
  own: [],
};

function formOf({ columns, readings }: Pick<OutletList, "columns" | "readings">, sheet: string): ListForm {
  const named = OUR_SHEETS.find(([, name]) => name.test(sheet.trim()))?.[0];
  if (readings.some(({ state }) => state === "left")) return "before and after";
  if (readings.some(({ holds }) => holds === "sweep")) return "face sweep";
  if (columns.has("jobId") && columns.has("left")) return "job summary";
  return named === "room balance" && columns.has("airflow") ? named : "own";
}

function tableAt({ tables }: SheetSource, row: number, column: number): SourceTable | undefined {
  return tables.find(
    ({ range, headerRows }) =>
      headerRows > 0 && range.firstRow === row && column >= range.firstColumn && column <= range.lastColumn,
  );
}

/** Cells of a row side by side that hold something, as first and last column. */
function filledRuns(source: SheetSource, row: number, lastColumn: number): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (let column = 1; column <= lastColumn; column += 1) {
    if (source.valueAt(row, column) === null) continue;
    const last = runs.at(-1);
    if (last?.[1] === column - 1) last[1] = column;
    else runs.push([column, column]);
  }
  return runs;
}

/** The headings of a row: those of one list, or of lists side by side, which an empty column parts. */
function headingsInRow(source: SheetSource, row: number, lastColumn: number): readonly HeadingRow[] {
  const whole = headingRow(source, row, 1, lastColumn);
  if (whole === undefined || whole.repeated.length === 0) return whole === undefined ? [] : [whole];
  const parts = filledRuns(source, row, lastColumn).flatMap(
    ([first, last]) => headingRow(source, row, first, last) ?? [],
  );
  const areWhole = parts.every(({ missing, repeated }) => missing.length === 0 && repeated.length === 0);
  return parts.length > 1 && areWhole ? parts : [whole];
}

/** Rows that may head a list, each with the columns in which its headings are. */
function headingRowsOf(source: SheetSource): readonly HeadingRow[] {
  const lastColumn = Math.min(source.lastColumn, HEADING_COLUMNS);
  const ofTables = source.tables.flatMap(({ range, headerRows }) => {
    if (headerRows === 0) return [];
    return headingRow(source, range.firstRow, range.firstColumn, range.lastColumn) ?? [];
  });
  const tableRows = new Set(ofTables.map(({ row }) => row));
  const others: HeadingRow[] = [];
  for (const row of source.rowsFrom(1)) {
    if (row > HEADING_ROWS) break;
    if (!tableRows.has(row)) others.push(...headingsInRow(source, row, lastColumn));
  }
  const further = [...ofTables, ...others].flatMap((heading) => furtherRows(source, heading));
  const byPlace = new Map([...ofTables, ...others, ...further].map((one) => [`${one.row} ${one.firstColumn}`, one]));
  return [...byPlace.values()].sort((one, other) => one.row - other.row || one.firstColumn - other.firstColumn);
}

/** Headings that stand again further down, where the outlets of a list have their tags. */
function furtherRows(source: SheetSource, { row: headerRow, columns, missing }: HeadingRow): readonly HeadingRow[] {
  const tags = columns.get("outlet");
  if (tags === undefined || missing.length > 0) return [];
  const found: HeadingRow[] = [];
  for (const row of source.rowsFrom(Math.max(headerRow, HEADING_ROWS) + 1)) {
    const text = source.valueAt(row, tags);
    if (typeof text !== "string" || readHeading(text)?.key !== "outlet") continue;
    found.push(...headingsInRow(source, row, Math.min(source.lastColumn, HEADING_COLUMNS)));
  }
  return found;
}

const HEADING_BACK = "Give the column its heading back.";

function missingColumns({ name }: SheetSource, { row, missing, nearly }: HeadingRow): readonly Finding[] {
  return missing.map((heading) => {
    const near = nearly.find(({ known }) => LIST_HEADINGS.get(known) === LIST_HEADINGS.get(heading));
    const hint = near === undefined ? "" : ` Is it “${near.heading}”?`;
    const problem = `The headings in row ${row} have no column “${heading}”, without which its outlets cannot be counted.${hint}`;
    return findingAt([name, `${row}:${row}`], "list-not-read", "list", problem, HEADING_BACK);
  });
}

const LIST_HEADINGS: ReadonlyMap<string, ListColumnKey> = new Map(
  (Object.keys(LIST_COLUMNS) as ListColumnKey[]).flatMap((key) =>
    LIST_COLUMNS[key].headings.map((heading) => [heading, key] as const),
  ),
);

function repeatedColumns({ name }: SheetSource, { row, repeated }: HeadingRow): readonly Finding[] {
  return repeated.map(({ column, heading }) =>
    findingAt(
      [name, formatAddress(row, column)],
      "list-not-read",
      "list",
      `Two headings mean “${heading}”, so it is unclear which column counts.`,
      "Rename one of them.",
    ),
  );
}

/** What a list lacks that it may lack, and headings that are nearly known. */
function lesserFindings({ sheet, form, columns, headerRow }: OutletList, { nearly }: HeadingRow): readonly Finding[] {
  const near = nearly.map(({ column, heading, known }) =>
    findingAt(
      [sheet, formatAddress(headerRow, column)],
      "heading-not-known",
      "nothing",
      `“${heading}” is not a heading that is known here, so its column is not read.`,
      `Write “${known}” if you mean that.`,
    ),
  );
  const isOurs = OUR_SHEETS.some(([, name]) => name.test(sheet.trim()));
  const missing = isOurs
    ? EXPECTED[form].filter((key) => !columns.has(key) && !nearly.some(({ known }) => LIST_HEADINGS.get(known) === key))
    : [];
  return [
    ...near,
    ...missing.map((key) => {
      const problem = `It has no column “${LIST_COLUMNS[key].headings[0]}”; that is taken as not given.`;
      return findingAt([sheet, ""], "missing-column", "nothing", problem, "");
    }),
  ];
}

function mappedReadings({ columns }: ColumnMapping): readonly ReadingColumns[] {
  const of = (state: ReadingState, holds: ReadingHeading["holds"]) =>
    columns.flatMap((one) => (one.key === "reading" && one.state === state && one.holds === holds ? one.column : []));
  return (["now", "found", "left"] as const).flatMap((state): readonly ReadingColumns[] => {
    const [sweeps, seconds, velocities] = [of(state, "sweep"), of(state, "seconds"), of(state, "velocity")];
    if (sweeps.length > 0) return [{ state, holds: "sweep", columns: sweeps, seconds }];
    return velocities.length === 0 ? [] : [{ state, holds: "velocity", columns: velocities, seconds: [] }];
  });
}

/** The first row below a mapped list that heads another one over the same columns, of any kind. */
function endOfMapping(
  source: SheetSource,
  mapping: ColumnMapping,
  mappings: readonly ColumnMapping[],
  headings: readonly HeadingRow[],
): number {
  if (mapping.lastRow !== null) return mapping.lastRow;
  const [first, last] = spanOf(mapping);
  const others = mappings
    .filter((other) => {
      const [from, to] = spanOf(other);
      return from <= last && first <= to;
    })
    .map(({ headerRow }) => headerRow);
  // Another list, whose headings are known, may begin below.
  const known = headings.filter((heading) => heading.missing.length === 0).map(({ row }) => row);
  const next = [...others, ...known].filter((row) => row > mapping.headerRow);
  return Math.min(source.lastRow, ...next.map((row) => row - 1));
}

function spanOf({ columns }: ColumnMapping): readonly [first: number, last: number] {
  const numbers = columns.map(({ column }) => column);
  return [Math.min(...numbers), Math.max(...numbers)];
}

/** The columns around those of a mapping that belong to no list beside it: a total may be named in one of them. */
function columnsAround(
  source: SheetSource,
  mapping: ColumnMapping,
  beside: readonly { readonly firstColumn: number; readonly lastColumn: number }[],
): Pick<OutletList, "firstColumn" | "lastColumn"> {
  const [first, last] = spanOf(mapping);
  const [left, right] = [
    Math.max(0, ...beside.filter((other) => other.lastColumn < first).map((other) => other.lastColumn)),
    Math.min(
      source.lastColumn + 1,
      ...beside.filter((other) => other.firstColumn > last).map((other) => other.firstColumn),
    ),
  ];
  // An empty column without a heading is what parts two lists.
  const isGap = (column: number) => source.valueAt(mapping.headerRow, column) === null;
  let [from, to] = [first, last];
  while (from > left + 1 && (left === 0 || !isGap(from - 1))) from -= 1;
  while (to < right - 1 && (right > source.lastColumn || !isGap(to + 1))) to += 1;
  return { firstColumn: from, lastColumn: Math.max(to, last) };
}

function mappedList(
  source: SheetSource,
  mapping: ColumnMapping,
  lastRow: number,
  around: Pick<OutletList, "firstColumn" | "lastColumn">,
): OutletList {
  const { headerRow, stated } = mapping;
  const units = mapping.columns.flatMap(({ column, unit }) =>
    unit === null ? [] : [{ column, ...MAPPED_UNITS[unit] }],
  );
  const columns = new Map(
    mapping.columns.flatMap((one) => (one.key === "reading" ? [] : [[one.key, one.column] as const])),
  );
  return {
    source,
    sheet: source.name,
    form: "own",
    foundBy: "mapping",
    headerRow,
    lastRow,
    ...around,
    columns,
    readings: mappedReadings(mapping),
    columnUnits: new Map(units.flatMap(({ column, system }) => (system === null ? [] : [[column, system] as const]))),
    columnScales: new Map(units.flatMap(({ column, scale }) => (scale === 1 ? [] : [[column, scale] as const]))),
    stated,
    table: tableAt(source, headerRow, columns.get("outlet") ?? 0),
  };
}

/** The row before the next headings that lie over the same columns. */
function lastRowOf({ lastRow }: SheetSource, heading: HeadingRow, all: readonly { readonly row: number }[]): number {
  const next = all.find((other) => other.row > heading.row && overlaps(other as HeadingRow, heading));
  return next === undefined ? lastRow : next.row - 1;
}

function overlaps(one: HeadingRow, other: HeadingRow): boolean {
  return one.firstColumn <= other.lastColumn && other.firstColumn <= one.lastColumn;
}

/** The cells of a list of which the workbook keeps what its columns hold. */
interface MappedSpan {
  readonly firstColumn: number;
  readonly lastColumn: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

/** Headings that everybody knows in the columns that the mappings of the same rows leave free. */
function headingsBeside(source: SheetSource, row: number, spans: readonly MappedSpan[]): readonly HeadingRow[] {
  const here = spans.filter(({ firstRow, lastRow }) => row >= firstRow - MOST_HEADING_ROWS && row <= lastRow);
  const isFree = (column: number) => here.every((span) => column < span.firstColumn || column > span.lastColumn);
  const runs: [number, number][] = [];
  for (const [first, last] of filledRuns(source, row, Math.min(source.lastColumn, HEADING_COLUMNS))) {
    for (let column = first; column <= last; column += 1) {
      if (!isFree(column)) continue;
      const run = runs.at(-1);
      if (run?.[1] === column - 1) run[1] = column;
      else runs.push([column, column]);
    }
  }
  const found = runs.flatMap(([first, last]) => headingRow(source, row, first, last) ?? []);
  return found.filter(({ missing }) => missing.length === 0);
}

function listsOn(source: SheetSource, mappings: readonly ColumnMapping[]): FoundLists {
  const all = headingRowsOf(source);
  const spans = mappings.map((mapping) => {
    const [firstColumn, lastColumn] = spanOf(mapping);
    return {
      firstColumn,
      lastColumn,
      firstRow: mapping.headerRow,
      lastRow: endOfMapping(source, mapping, mappings, all),
    };
  });
  const mapped = mappings.map((mapping, index) => {
    const { headerRow } = mapping;
    const lastRow = spans[index]?.lastRow ?? source.lastRow;
    const beside = spans.filter((other) => other.firstRow <= lastRow && other.lastRow >= headerRow);
    return mappedList(source, mapping, lastRow, columnsAround(source, mapping, beside));
  });
  // Two rows of headings: the upper one may look like headings of its own. A list beside is another.
  const isMapped = ({ row, firstColumn, lastColumn }: HeadingRow) =>
    spans.some(
      (span) =>
        row >= span.firstRow - MOST_HEADING_ROWS &&
        row <= span.lastRow &&
        firstColumn <= span.lastColumn &&
        span.firstColumn <= lastColumn,
    );
  const beside = all.filter(isMapped).flatMap(({ row }) => headingsBeside(source, row, spans));
  const headings = [...all.filter((heading) => !isMapped(heading)), ...beside];
  const whole = headings.filter(({ missing }) => missing.length === 0);
  const likely = headings.filter(({ missing, score }) => missing.length > 0 && score >= LIKELY_SCORE);
  const read = whole.map((heading) => {
    const unclear = repeatedColumns(source, heading);
    if (unclear.length > 0) return { list: undefined, findings: unclear };
    const { columns, readings, columnUnits, row } = heading;
    const list: OutletList = {
      source,
      sheet: source.name,
      form: formOf(heading, source.name),
      foundBy: "headings",
      headerRow: row,
      lastRow: lastRowOf(source, heading, headings),
      firstColumn: heading.firstColumn,
      lastColumn: heading.lastColumn,
      columns,
      readings,
      columnUnits,
      columnScales: new Map(),
      stated: {},
      table: tableAt(source, row, columns.get("outlet") ?? 0),
    };
    return { list, findings: lesserFindings(list, heading) };
  });
  const lists = [...mapped, ...read.flatMap(({ list }) => list ?? [])];
  const findings = [
    ...read.flatMap((one) => one.findings),
    ...likely.flatMap((heading) => missingColumns(source, heading)),
  ];
  return { value: lists, findings: lists.length === 0 && findings.length === 0 ? unheaded(source) : findings };
}

/** A sheet that has the name of one of ours and something in it, but no headings. */
function unheaded({ name, lastRow }: SheetSource): readonly Finding[] {
  const form = OUR_SHEETS.find(([, pattern]) => pattern.test(name.trim()))?.[0];
  if (form === undefined || lastRow === 0) return [];
  const problem = `It has no row with the headings of a ${form}.`;
  return [findingAt([name, ""], "list-not-read", "list", problem, "Give its columns their headings back.")];
}

/**
 * Finds the lists of outlets of a workbook, several on a sheet where there are several: by their headings, whatever the
 * sheet is called and in whatever order the columns are, or by what the workbook keeps of its columns, where a person
 * has said what they hold.
 */
export function findLists({ sheets, names }: Pick<WorkbookSource, "sheets" | "names">): FoundLists {
  const kept = mappingsIn(names);
  const found = sheets.map((source) =>
    listsOn(
      source,
      kept.value.filter(
        ({ sheet, columns }) => columns.length > 0 && sheet.toLowerCase() === source.name.toLowerCase(),
      ),
    ),
  );
  const here = new Set(sheets.map(({ name }) => name.toLowerCase()));
  return {
    value: found.flatMap(({ value }) => value),
    findings: [
      ...kept.findings.filter(({ sheet }) => here.has(sheet.toLowerCase())),
      ...found.flatMap(({ findings }) => findings),
    ],
  };
}
