import { distance } from "fastest-levenshtein";
import type { UnitSystemName } from "../../core/index.js";
import type { SheetSource } from "../source/index.js";
import { LIST_COLUMN_KEYS, LIST_COLUMNS, type ListColumnKey, type ReadingHeading } from "./columns.js";
import { readHeading } from "./heading.js";
import type { OutletList, ReadingColumns } from "./outlet-list.js";

/** What a row says as the headings of a list of outlets. */
export interface HeadingRow extends Pick<OutletList, "columns" | "readings" | "columnUnits"> {
  readonly row: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
  /** Columns that tell what another one tells already. */
  readonly repeated: readonly { readonly column: number; readonly heading: string }[];
  /** Headings that no list has and that come near to one that it has. */
  readonly nearly: readonly { readonly column: number; readonly heading: string; readonly known: string }[];
  /** Headings without which the row heads no list; none where it does. */
  readonly missing: readonly string[];
  /** How much of the row speaks for a list of outlets. */
  readonly score: number;
}

/** Columns that together show that a row is meant to head a list of outlets: other tables of ours have fewer. */
const TELLING: readonly ListColumnKey[] = [
  "outlet",
  "kind",
  "width",
  "height",
  "factor",
  "design",
  "airflow",
  "found",
  "left",
];

/** A list has an outlet, a design, and an airflow: one, or one as found beside it or beside one as left. */
function missingOf(has: (key: ListColumnKey) => boolean): readonly ListColumnKey[] {
  const isOne = has("airflow");
  const isTwo = has("left") || (has("found") && !isOne);
  return [
    ...(["outlet", "design"] as const).filter((key) => !has(key)),
    ...(isOne || isTwo ? [] : ["airflow" as const]),
    ...(isTwo ? (["found", "left"] as const).filter((key) => !has(key)) : []),
  ];
}

/** How many letters may differ from a known heading for it to be meant; a sign is more than a letter. Own choice. */
const mayDiffer = (heading: string) =>
  !/^[a-z]/i.test(heading) || heading.length < 4 ? 0 : heading.length < 7 ? 1 : 2;

const KNOWN_HEADINGS = LIST_COLUMN_KEYS.flatMap((key) => LIST_COLUMNS[key].headings as readonly string[]).map(
  (heading) => ({ heading, small: heading.toLowerCase(), differ: mayDiffer(heading) }),
);

function nearestHeading(heading: string): string | undefined {
  const text = heading
    .trim()
    .toLowerCase()
    .replace(/(?:,| \().*$/, "");
  return KNOWN_HEADINGS.find(({ small, differ }) => {
    return Math.abs(small.length - text.length) <= differ && distance(text, small) <= differ;
  })?.heading;
}

/** A missing heading as the list would spell it: that as found in the manner of the one as left, and the reverse. */
function spelledAs(
  source: SheetSource,
  row: number,
  columns: ReadonlyMap<ListColumnKey, number>,
  key: ListColumnKey,
): string {
  const { headings } = LIST_COLUMNS[key];
  if (key !== "found" && key !== "left") return headings[0];
  const other = key === "found" ? "left" : "found";
  const text = source.valueAt(row, columns.get(other) ?? 0);
  const index = LIST_COLUMNS[other].headings.findIndex(
    (heading) => typeof text === "string" && text.trim().toLowerCase().startsWith(heading.toLowerCase()),
  );
  return headings[Math.max(index, 0)] ?? headings[0];
}

interface NumberedColumn {
  readonly reading: ReadingHeading;
  readonly number: number;
  readonly column: number;
}

function readingColumns(found: readonly NumberedColumn[], hasFoundAirflow: boolean): readonly ReadingColumns[] {
  const inOrder = [...found].sort((one, other) => one.number - other.number);
  const of = (state: string, holds: ReadingHeading["holds"]) =>
    inOrder.filter(({ reading }) => reading.state === state && reading.holds === holds).map(({ column }) => column);
  const [sweeps, seconds] = [of("now", "sweep"), of("now", "seconds")];
  const isSwept = sweeps.length > 0 && sweeps.length === seconds.length;
  const [now, before, after] = [of("now", "velocity"), of("found", "velocity"), of("left", "velocity")];
  const isPaired = before.length > 0 && before.length === after.length;
  // Readings as found beside those of the airflow as it now is.
  const isBeside =
    hasFoundAirflow && before.length > 0 && after.length === 0 && before.length === now.length && !isSwept;
  return [
    ...(isSwept ? [{ state: "now", holds: "sweep", columns: sweeps, seconds } as const] : []),
    ...(now.length > 0 && !isSwept ? [{ state: "now", holds: "velocity", columns: now, seconds: [] } as const] : []),
    ...(isPaired
      ? [
          { state: "found", holds: "velocity", columns: before, seconds: [] } as const,
          { state: "left", holds: "velocity", columns: after, seconds: [] } as const,
        ]
      : []),
    ...(isBeside ? [{ state: "found", holds: "velocity", columns: before, seconds: [] } as const] : []),
  ];
}

/** Reads a row as headings; undefined where nothing in it is one. */
export function headingRow(
  source: SheetSource,
  row: number,
  firstColumn: number,
  lastColumn: number,
): HeadingRow | undefined {
  const columns = new Map<ListColumnKey, number>();
  const columnUnits = new Map<number, UnitSystemName>();
  const numbered: NumberedColumn[] = [];
  const seen = new Set<string>();
  const repeated: { column: number; heading: string }[] = [];
  const unknown: { column: number; heading: string }[] = [];
  for (let column = firstColumn; column <= lastColumn; column += 1) {
    const text = source.valueAt(row, column);
    if (typeof text !== "string" || text.trim() === "") continue;
    const heading = readHeading(text);
    if (heading === undefined) {
      unknown.push({ column, heading: text.trim() });
      continue;
    }
    const name =
      heading.key === "reading" ? `${heading.reading.state} ${heading.reading.holds} ${heading.number}` : heading.key;
    if (seen.has(name)) {
      repeated.push({ column, heading: text.trim() });
      continue;
    }
    seen.add(name);
    if (heading.units !== null) columnUnits.set(column, heading.units);
    if (heading.key === "reading") {
      numbered.push({ reading: heading.reading, number: heading.number, column });
      continue;
    }
    columns.set(heading.key, column);
  }
  if (columns.size === 0) return undefined;
  const readings = readingColumns(numbered, columns.has("found"));
  const score = TELLING.filter((key) => columns.has(key)).length + (readings.length > 0 ? 1 : 0);
  if (score < 2) return undefined;
  const nearly = unknown.flatMap(({ column, heading }) => {
    const known = nearestHeading(heading);
    return known === undefined ? [] : [{ column, heading, known }];
  });
  const missing = missingOf((key) => columns.has(key)).map((key) => spelledAs(source, row, columns, key));
  return { row, firstColumn, lastColumn, columns, columnUnits, readings, repeated, nearly, missing, score };
}
