import { distance } from "fastest-levenshtein";
import { HostError } from "../host.js";
import { groupedBy, type JobFigures } from "./job-figures.js";
import type { OutletRecord } from "./outlet-record.js";

/** Whose names a manager may merge: a technician's, or the serial number of a meter. */
export type NamedKind = "technician" | "instrument";

/** One line of the manager's table: a name as it is found, and the one that it counts as. */
export interface NameRule {
  readonly kind: NamedKind;
  readonly found: string;
  readonly countsAs: string;
}

/** A name that looks like another, or that a rule is about. */
export interface NameVariant {
  readonly kind: NamedKind;
  readonly name: string;
  readonly jobs: number;
  readonly outlets: number;
  /** By the manager's table; null where it counts as itself. */
  readonly countsAs: string | null;
  /** The name that it looks like, which counts apart; null where there is none. */
  readonly like: string | null;
  /** In what they are alike. */
  readonly why: string;
}

const KINDS: readonly NamedKind[] = ["technician", "instrument"];
const HEADINGS = ["kind", "found", "counts as"];

const same = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase();

/**
 * Reads the manager's table of names: a row of the headings kind, found, counts as, then a row a name.
 *
 * @param file - For messages
 * @throws {HostError} Naming the row: a kind that is unknown, an empty name, a name that is renamed twice
 */
export function nameRules(rows: readonly (readonly string[])[], file: string): readonly NameRule[] {
  const [head = [], ...lines] = rows;
  const fail = (row: number, problem: string) => new HostError(`“${file}”, row ${row}: ${problem}`);
  if (!HEADINGS.every((heading, index) => same(head[index] ?? "", heading))) {
    throw fail(1, `the headings have to be ${HEADINGS.join(", ")}.`);
  }
  const rules: NameRule[] = [];
  for (const [index, line] of lines.entries()) {
    const [kindText = "", found = "", countsAs = ""] = line.map((text) => text.trim());
    if (kindText + found + countsAs === "") continue;
    const kind = KINDS.find((known) => same(known, kindText));
    if (kind === undefined) throw fail(index + 2, `“${kindText}” is not a kind: write technician or instrument.`);
    if (found === "" || countsAs === "")
      throw fail(index + 2, "a name is missing: write the one found and the one it counts as.");
    if (rules.some((rule) => rule.kind === kind && same(rule.found, found))) {
      throw fail(index + 2, `“${found}” is there twice. Keep one of the rows.`);
    }
    rules.push({ kind, found, countsAs });
  }
  const chained = rules.find(({ kind, countsAs, found }) =>
    rules.some((other) => other.kind === kind && same(other.found, countsAs) && !same(found, countsAs)),
  );
  if (chained !== undefined) {
    throw new HostError(
      `“${file}”: “${chained.found}” counts as “${chained.countsAs}”, which another row renames. Write the last name in both.`,
    );
  }
  return rules;
}

function nameBy(rules: readonly NameRule[], kind: NamedKind): (name: string) => string {
  const known = new Map(
    rules.filter((rule) => rule.kind === kind).map(({ found, countsAs }) => [found.toLowerCase(), countsAs]),
  );
  return (name) => known.get(name.trim().toLowerCase()) ?? name;
}

/** Gives figures the names that they count as. */
export function renamedFigures(figures: readonly JobFigures[], rules: readonly NameRule[]): readonly JobFigures[] {
  if (rules.length === 0) return figures;
  const [technician, instrument] = [nameBy(rules, "technician"), nameBy(rules, "instrument")];
  return figures.map((job) => ({
    ...job,
    parts: job.parts.map((part) => ({
      ...part,
      technician: technician(part.technician),
      instrumentSerial: instrument(part.instrumentSerial),
    })),
  }));
}

/** Gives an outlet the names that it counts as. */
export function outletRenamer(rules: readonly NameRule[]): (outlet: OutletRecord) => OutletRecord {
  if (rules.length === 0) return (outlet) => outlet;
  const [technician, instrument] = [nameBy(rules, "technician"), nameBy(rules, "instrument")];
  return (outlet) => ({
    ...outlet,
    technician: technician(outlet.technician),
    instrumentSerial: instrument(outlet.instrumentSerial),
  });
}

interface FoundName {
  readonly name: string;
  readonly jobs: number;
  readonly outlets: number;
}

/**
 * Lists the names that look alike and those that a rule merges. Nothing is merged here.
 *
 * @param jobs - Those that count, under the names as they were found
 */
export function nameVariants(jobs: readonly JobFigures[], rules: readonly NameRule[]): readonly NameVariant[] {
  return KINDS.flatMap((kind) => {
    const found = namesOf(jobs, kind);
    const ofKind = rules.filter((rule) => rule.kind === kind);
    const countsAs = ({ name }: FoundName) => ofKind.find((rule) => same(rule.found, name))?.countsAs ?? null;
    const merged = found.flatMap((one): readonly NameVariant[] => {
      const as = countsAs(one);
      return as === null ? [] : [{ kind, ...one, countsAs: as, like: null, why: "by the table of names" }];
    });
    const unused = ofKind
      .filter((rule) => !found.some(({ name }) => same(name, rule.found)))
      .map(({ found: name, countsAs: as }): NameVariant => {
        return { kind, name, jobs: 0, outlets: 0, countsAs: as, like: null, why: "no job has this name" };
      });
    const alone = found.filter((one) => countsAs(one) === null);
    const alike = alone.flatMap((one, index) =>
      alone.slice(0, index).flatMap((other): readonly NameVariant[] => {
        const why = likeness(kind, one.name, other.name);
        return why === null ? [] : [{ kind, ...one, countsAs: null, like: other.name, why }];
      }),
    );
    return [...alike, ...merged, ...unused];
  });
}

function namesOf(jobs: readonly JobFigures[], kind: NamedKind): readonly FoundName[] {
  const nameOf = kind === "technician" ? "technician" : "instrumentSerial";
  const parts = jobs.flatMap((job) => job.parts.map((part) => ({ name: part[nameOf].trim(), part, job })));
  return [...groupedBy(parts, ({ name }) => name.toLowerCase()).values()]
    .map((alike) => ({
      name: alike[0]?.name ?? "",
      jobs: new Set(alike.map(({ job }) => job)).size,
      outlets: alike.reduce((sum, { part }) => sum + part.tally.outlets, 0),
    }))
    .filter(({ name }) => name !== "")
    .toSorted((one, other) => other.outlets - one.outlets || (one.name < other.name ? -1 : 1));
}

/** Shorter names differ by a letter too easily. Chosen by us. */
const LEAST_LETTERS = 5;

function likeness(kind: NamedKind, one: string, other: string): string | null {
  const letters = (name: string) => name.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, "");
  const [first, second] = [letters(one), letters(other)];
  if (first === second) return "the same but for spaces and signs";
  if (kind === "instrument") {
    // The numbers of two meters often differ by one digit, so that only what is read alike is named.
    const digits = (name: string) => name.replaceAll("o", "0").replaceAll(/[il]/g, "1");
    return digits(first) === digits(second) ? "the same but for letters that look like digits" : null;
  }
  if (isInitialOf(one, other) || isInitialOf(other, one)) return "the same family name, and an initial";
  const isLong = Math.min(first.length, second.length) >= LEAST_LETTERS;
  return isLong && !/\p{N}/u.test(first + second) && differInside(first, second) ? "one letter apart" : null;
}

/** "Technician A" and "Technician B" differ by a letter too, and are two. */
function differInside(first: string, second: string): boolean {
  return (
    distance(first, second) === 1 && !(first.length === second.length && first.slice(0, -1) === second.slice(0, -1))
  );
}

function isInitialOf(short: string, long: string): boolean {
  const words = (name: string) =>
    name
      .toLowerCase()
      .split(/[^\p{L}\p{N}]+/u)
      .filter(Boolean);
  const [initials, names] = [words(short), words(long)];
  const [initial = "", name = ""] = [initials[0], names[0]];
  return (
    initials.length === 2 &&
    names.length >= 2 &&
    initials.at(-1) === names.at(-1) &&
    initial.length === 1 &&
    name.length > 1 &&
    name.startsWith(initial)
  );
}
