import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { repository } from "./core/core-functions.js";

/**
 * A row of shared/cases/*.json: a value that something outside this project gives, and how to ask for ours.
 *
 * To add one:
 * - `function` is the name of an exported core function, `inputs` its arguments by parameter name, all of them. A
 *   list or a record is written as JSON: `"velocitiesFpm": [300, 450]`, `"instrument": { "readingPercent": 3 }`.
 *   The order does not matter; the runner takes it from the function's own declaration.
 * - `expected` is the printed value: a number, text, true, false, null, a list, or a record. A record may name only
 *   the fields that the source gives.
 * - `tolerance` is absolute, in the unit of the result, for every number in `expected`: half a unit of the last
 *   printed digit, or something else with `toleranceReason` saying why. Leave it out where nothing is a number.
 * - `source` is the document with edition and section (a file may give one for all its rows), `standing` says how far
 *   it can be trusted: "read" in the document, "derived" by arithmetic independent of our code, "common practice",
 *   or "from memory".
 * - `cell` is the same question as a formula in a workbook, where a VANE function exists. The result must be the
 *   same; where the cell gives it in another form (a unit, a spilled block), `cell.expected` has it, with
 *   `cell.tolerance` where the unit is another one.
 */
export interface PublishedCase {
  readonly file: string;
  readonly title: string;
  readonly source: string;
  readonly standing: Standing;
  readonly function: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: unknown;
  readonly tolerance: number;
  readonly toleranceReason: string;
  readonly cell: CellCase | undefined;
}

export interface CellCase {
  readonly formula: string;
  readonly expected: unknown;
  readonly tolerance: number;
}

const standings = ["read", "derived", "common practice", "from memory"] as const;
export type Standing = (typeof standings)[number];

const directory = join(repository, "shared/cases");
const halfDigit = "half the last printed digit";
const fields = [
  "title",
  "source",
  "standing",
  "function",
  "inputs",
  "expected",
  "tolerance",
  "toleranceReason",
  "cell",
];

/** Every row of every file in shared/cases, checked for the parts that a row must have. */
export function publishedCases(): readonly PublishedCase[] {
  return readdirSync(directory)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .flatMap((file) => casesOf(file, JSON.parse(readFileSync(join(directory, file), "utf8"))));
}

function casesOf(file: string, content: unknown): readonly PublishedCase[] {
  const { source, standing, cases } = recordOf(content, file);
  if (!Array.isArray(cases) || cases.length === 0) throw new Error(`${file} has no list of cases`);
  return cases.map((row, index) => caseOf(file, `${file}, row ${index + 1}`, recordOf(row, file), source, standing));
}

function caseOf(
  file: string,
  where: string,
  row: Readonly<Record<string, unknown>>,
  source: unknown,
  standing: unknown,
): PublishedCase {
  const unknown = Object.keys(row).filter((field) => !fields.includes(field));
  if (unknown.length > 0) throw new Error(`${where}: unknown ${unknown.join(", ")}`);
  const cell = row.cell === undefined ? undefined : recordOf(row.cell, where);
  const tolerance = hasNumber(row.expected) || hasNumber(cell?.expected) ? row.tolerance : (row.tolerance ?? 0);
  if (typeof tolerance !== "number" || !(tolerance >= 0)) throw new Error(`${where}: no tolerance`);
  if (row.expected === undefined) throw new Error(`${where}: nothing expected`);
  return {
    file,
    title: textOf(row.title, `${where}: title`),
    source: textOf(row.source ?? source, `${where}: source`),
    standing: standingOf(row.standing ?? standing, where),
    function: textOf(row.function, `${where}: function`),
    inputs: recordOf(row.inputs, `${where}: inputs`),
    expected: row.expected,
    tolerance,
    toleranceReason: textOf(row.toleranceReason ?? halfDigit, `${where}: toleranceReason`),
    cell: cell && {
      formula: textOf(cell.formula, `${where}: cell.formula`),
      expected: cell.expected === undefined ? row.expected : cell.expected,
      tolerance: typeof cell.tolerance === "number" ? cell.tolerance : tolerance,
    },
  };
}

/** Says where a value leaves what was published, or nothing where it agrees within the tolerance. */
export function departure(actual: unknown, expected: unknown, tolerance: number, path = "result"): string | undefined {
  if (typeof expected === "number") {
    const near = typeof actual === "number" && Math.abs(actual - expected) <= tolerance + 1e-15 * Math.abs(expected);
    return near ? undefined : `${path} is ${String(actual)}, published ${expected} ± ${tolerance}`;
  }
  if (typeof expected !== "object" || expected === null) {
    return actual === expected ? undefined : `${path} is ${String(actual)}, published ${String(expected)}`;
  }
  if (typeof actual !== "object" || actual === null) return `${path} is ${String(actual)}, published a list or record`;
  if (Array.isArray(expected) && (!Array.isArray(actual) || actual.length !== expected.length)) {
    return `${path} is ${JSON.stringify(actual)}, published ${expected.length} values`;
  }
  const given = actual as Readonly<Record<string, unknown>>;
  return Object.entries(expected)
    .map(([field, value]) => departure(given[field], value, tolerance, `${path}.${field}`))
    .find((one) => one !== undefined);
}

function hasNumber(value: unknown): boolean {
  if (typeof value === "object" && value !== null) return Object.values(value).some(hasNumber);
  return typeof value === "number";
}

function recordOf(value: unknown, where: string): Readonly<Record<string, unknown>> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new Error(`${where} is not a record`);
  return value as Readonly<Record<string, unknown>>;
}

function textOf(value: unknown, where: string): string {
  if (typeof value !== "string" || value === "") throw new Error(`${where} is missing`);
  return value;
}

function standingOf(value: unknown, where: string): Standing {
  const standing = standings.find((one) => one === value);
  if (!standing) throw new Error(`${where}: standing must be one of ${standings.join(", ")}`);
  return standing;
}
