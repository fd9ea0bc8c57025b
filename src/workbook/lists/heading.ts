import type { UnitSystemName } from "../../core/index.js";
import {
  LIST_COLUMN_KEYS,
  LIST_COLUMNS,
  type ListColumnKey,
  READING_HEADINGS,
  type ReadingHeading,
} from "./columns.js";

/** What a heading says of its column. */
export type ReadHeading =
  | { readonly key: ListColumnKey; readonly units: UnitSystemName | null }
  | {
      readonly key: "reading";
      readonly reading: ReadingHeading;
      readonly number: number;
      readonly units: UnitSystemName | null;
    };

const KEYS: ReadonlyMap<string, ListColumnKey> = new Map(
  LIST_COLUMN_KEYS.flatMap((key) => LIST_COLUMNS[key].headings.map((heading) => [heading.toLowerCase(), key] as const)),
);

const READINGS: ReadonlyMap<string, ReadingHeading> = new Map(
  READING_HEADINGS.flatMap((reading) => reading.prefixes.map((prefix) => [prefix.toLowerCase(), reading] as const)),
);

/** Units that may stand behind a heading, and the system that they belong to. */
const UNITS: ReadonlyMap<string, UnitSystemName> = new Map([
  ...["in", "cfm", "fpm", "ft²", "ft2"].map((unit) => [unit, "ip"] as const),
  ...["mm", "l/s", "m/s", "m²", "m2"].map((unit) => [unit, "si"] as const),
]);

const READING = /^([a-z]+ ?)(\d{1,2})$/;

const MOST_READ = 5000;

/** Remembers what was read: rows of text are looked through for headings, and most of it stands in every row. */
function remembering<Result>(read: (text: string) => Result): (text: string) => Result {
  const results = new Map<string, Result>();
  return (text) => {
    const known = results.get(text);
    if (known !== undefined || results.has(text)) return known as Result;
    if (results.size >= MOST_READ) results.clear();
    const result = read(text);
    results.set(text, result);
    return result;
  };
}

/** Returns a heading in small letters, without the unit that stands behind a comma or in brackets. */
export const plainHeading = remembering((text) =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s+/g, " ")
    .replace(/(?:,| \().*$/, ""),
);

/** The unit that a heading names: `Width, mm`, `Height (in)`. */
function unitsInHeading(text: string): UnitSystemName | null {
  const [, unit = ""] = /[,(]\s*([^\s,()]+)/.exec(text) ?? [];
  return UNITS.get(unit.toLowerCase()) ?? null;
}

/** Reads a heading; undefined where it is none that a list of outlets has. */
export const readHeading: (text: string) => ReadHeading | undefined = remembering(freshlyRead);

function freshlyRead(text: string): ReadHeading | undefined {
  const plain = plainHeading(text);
  const key = KEYS.get(plain);
  if (key !== undefined) return { key, units: unitsInHeading(text) };
  const [, prefix = "", digits = ""] = READING.exec(plain) ?? [];
  const reading = READINGS.get(prefix);
  return reading === undefined
    ? undefined
    : { key: "reading", reading, number: Number(digits), units: unitsInHeading(text) };
}
