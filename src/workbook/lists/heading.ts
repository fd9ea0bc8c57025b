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

/** A heading in small letters, without the unit that stands behind a comma or in brackets. */
function plainHeading(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/\s+/g, " ")
    .replace(/(?:,| \().*$/, "");
}

/** The unit that a heading names: `Width, mm`, `Height (in)`. */
function unitsInHeading(text: string): UnitSystemName | null {
  const [, unit = ""] = /[,(]\s*([^\s,()]+)/.exec(text) ?? [];
  return UNITS.get(unit.toLowerCase()) ?? null;
}

/** Rows of text are looked through for headings, and most of it stands in every row. */
const READ = new Map<string, ReadHeading | undefined>();
const MOST_READ = 5000;

/** Reads a heading; undefined where it is none that a list of outlets has. */
export function readHeading(text: string): ReadHeading | undefined {
  const known = READ.get(text);
  if (known !== undefined || READ.has(text)) return known;
  if (READ.size >= MOST_READ) READ.clear();
  const read = freshlyRead(text);
  READ.set(text, read);
  return read;
}

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
