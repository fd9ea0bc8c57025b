import { MAPPED_UNIT_NAMES, MAPPED_UNITS, type MappedUnitName, OUTLET_KINDS, type OutletKind } from "../lists/index.js";
import {
  HEADING_WORDS,
  type HeadingMeaning,
  type HeadingState,
  type HeadingWords,
  STATE_WORDS,
} from "./heading-words.js";

/** What the words of a heading say of its column. */
export interface OwnHeading {
  /** Null where only a state or a number stands there. */
  readonly meaning: HeadingMeaning | null;
  readonly state: HeadingState | null;
  readonly unit: MappedUnitName | null;
  /** The number behind its word, as of a reading. */
  readonly number: number | null;
  /** Whether every word was understood. */
  readonly isWhole: boolean;
}

/** The words of a heading, without capitals, accents and signs. */
export function plainWords(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase()
    .replace(/ß/g, "ss")
    .replace(/[^\p{L}\p{N}ø⌀]+/gu, " ")
    .trim();
}

const UNITS_BY_SPELLING: readonly (readonly [spelling: string, unit: MappedUnitName])[] = MAPPED_UNIT_NAMES.flatMap(
  (unit) => MAPPED_UNITS[unit].spellings.map((spelling) => [spelling, unit] as const),
).sort(([one], [other]) => other.length - one.length);

/** Units that are words as well: read only in brackets, behind a comma, or behind another word. */
const ONLY_BEHIND = new Set(["in", "m", "s", "'", '"', "ms", "ls", "min", "sec", "ft"]);

function unitNamed(text: string): MappedUnitName | undefined {
  const plain = text.trim().toLowerCase();
  return UNITS_BY_SPELLING.find(([spelling]) => spelling === plain)?.[1];
}

/** The unit that a text names by its sign, as in a list of answers. */
export const unitSpelled = (text: string): MappedUnitName | undefined =>
  unitNamed(text) ?? MAPPED_UNIT_NAMES.find((name) => name === text.trim().toLowerCase());

interface WithoutUnit {
  readonly text: string;
  readonly unit: MappedUnitName | null;
}

/** Takes the unit out of a heading: `Free area (sq. in.)`, `Width, mm`, `Design CFM`, `% of design`. */
function withoutUnit(heading: string): WithoutUnit {
  const text = heading.replace(/\s+/g, " ").trim();
  for (const [bracket, inside = ""] of text.matchAll(/[([]\s*([^()[\]]+?)\s*[)\]]/g)) {
    const unit = unitNamed(inside);
    if (unit !== undefined) return { text: text.replace(bracket, " "), unit };
  }
  const [, before = "", behind = ""] = /^(.*?)\s*[,;:–—-]\s*([^,;:]+)$/.exec(text) ?? [];
  const afterComma = behind === "" ? undefined : unitNamed(behind);
  if (afterComma !== undefined) return { text: before, unit: afterComma };
  if (text.includes("%")) return { text: text.replaceAll("%", " "), unit: "percent" };
  const lower = text.toLowerCase();
  for (const [spelling, unit] of UNITS_BY_SPELLING) {
    if (lower === spelling && !ONLY_BEHIND.has(spelling)) return { text: "", unit };
    if (lower.endsWith(` ${spelling}`)) return { text: text.slice(0, -spelling.length), unit };
    if (lower.startsWith(`${spelling} `) && !ONLY_BEHIND.has(spelling))
      return { text: text.slice(spelling.length), unit };
    if (lower.endsWith(`.${spelling}`) && !ONLY_BEHIND.has(spelling))
      return { text: text.slice(0, -spelling.length), unit };
  }
  return { text, unit: null };
}

const all = ({ en, es, de }: HeadingWords) => [...en, ...es, ...de];

interface Phrase<Meaning> {
  readonly words: string;
  readonly meaning: Meaning;
}

function phrasesOf<Meaning extends string>(data: Readonly<Record<Meaning, HeadingWords>>): readonly Phrase<Meaning>[] {
  return (Object.keys(data) as Meaning[])
    .flatMap((meaning) => all(data[meaning]).map((words) => ({ words, meaning })))
    .sort((one, other) => other.words.length - one.words.length);
}

const MEANINGS = phrasesOf(HEADING_WORDS);
const STATES = phrasesOf(STATE_WORDS);

const holds = (text: string, words: string) => ` ${text} `.includes(` ${words} `);
const without = (text: string, words: string) => ` ${text} `.replace(` ${words} `, " ").replace(/\s+/g, " ").trim();

/** What a unit alone says of a column. */
const MEANT_BY_UNIT: Readonly<Record<string, HeadingMeaning | null>> = {
  airflow: "airflow",
  velocity: "reading",
  percent: "percent",
  seconds: "seconds",
  length: null,
  area: "area",
  ratio: "factor",
};

/** Units that a meaning may have; a meaning that is missing here has none. */
const MEASURED: Readonly<Partial<Record<HeadingMeaning, readonly string[]>>> = {
  width: ["length"],
  length: ["length"],
  height: ["length"],
  size: ["length"],
  diameter: ["length"],
  area: ["area"],
  freeArea: ["area", "percent"],
  effectiveArea: ["area"],
  factor: ["ratio", "percent"],
  airflow: ["airflow"],
  reading: ["velocity"],
  average: ["velocity"],
  sweep: ["velocity"],
  seconds: ["seconds"],
  percent: ["percent"],
};

/** What a meaning becomes beside a unit: "Free area %" is a factor, "Avg CFM" an airflow, "Flow FPM" a velocity. */
function beside(meaning: HeadingMeaning, measures: string): HeadingMeaning | null {
  const wanted = MEASURED[meaning];
  if (wanted === undefined) return meaning;
  if (meaning === "freeArea" && measures === "percent") return "factor";
  if (wanted.includes(measures)) return meaning;
  return MEANT_BY_UNIT[measures] ?? null;
}

/** Words that change nothing of what the others say: "Caudal de diseño", "Return grille". */
const FILLERS = new Set([
  "of",
  "the",
  "for",
  "at",
  "de",
  "del",
  "la",
  "el",
  "der",
  "die",
  "in",
  "air",
  "aire",
  "luft",
  "total",
]);
const KINDS = new Set([...OUTLET_KINDS, "outside", "extract"].flatMap((kind) => kind.split(" ")));

/** Whether the words beside the one that was found say the same, or nothing. */
function isUnderstood(rest: string, meaning: HeadingMeaning): boolean {
  if (rest === "") return true;
  return rest
    .split(" ")
    .every(
      (word) =>
        FILLERS.has(word) || KINDS.has(word) || MEANINGS.some((one) => one.words === word && one.meaning === meaning),
    );
}

/** The kind of outlets that a heading names: "Return grille". */
export function kindInHeading(heading: string): OutletKind | undefined {
  const words = plainWords(heading);
  return OUTLET_KINDS.find((kind) => holds(words, kind));
}

/** Whether a text is, word for word, one that is known: "Free" over "area" is "free area", and no area. */
export function isKnownHeading(text: string): boolean {
  const words = plainWords(text);
  return MEANINGS.some((one) => one.words === words);
}

/** Reads a heading of somebody's own sheet by its words; undefined where nothing of it is understood. */
export function readOwnHeading(heading: string): OwnHeading | undefined {
  const { text, unit } = withoutUnit(heading.replace(/[#№]/g, " no "));
  let rest = plainWords(text);
  const [, before, digits] = /^(.*?)\s*(\d{1,2})$/.exec(rest) ?? [];
  const number = digits === undefined ? null : Number(digits);
  if (number !== null) rest = (before ?? "").trim();
  const measures = unit === null ? undefined : MAPPED_UNITS[unit].measures;
  // Every word of a state is also a word of an order: "Final" may head an airflow, or a velocity, by its unit.
  const whole = MEANINGS.find(({ words }) => words === rest);
  const state = whole === undefined ? STATES.find(({ words }) => holds(rest, words)) : undefined;
  if (state !== undefined) rest = without(rest, state.words);
  const found =
    whole ??
    MEANINGS.find(({ words }) => words === rest) ??
    MEANINGS.find(({ words }) => words.length > 1 && holds(rest, words));
  const isWhole = rest === "" || (found !== undefined && isUnderstood(without(rest, found.words), found.meaning));
  if (found === undefined && !isWhole && measures === undefined) return undefined;
  const byUnit = measures === undefined ? null : (MEANT_BY_UNIT[measures] ?? null);
  const meaning =
    found === undefined ? byUnit : measures === undefined ? found.meaning : beside(found.meaning, measures);
  if (meaning === null && state === undefined && number === null) return undefined;
  return { meaning, state: state?.meaning ?? null, unit, number, isWhole };
}
