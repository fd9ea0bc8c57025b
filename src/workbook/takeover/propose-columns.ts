import {
  type ColumnContent,
  type ColumnMapping,
  type ListColumnKey,
  MAPPED_UNITS,
  type MappedUnitName,
  type Measured,
  mappingsIn,
  readOpeningSize,
  type StatedForRows,
} from "../lists/index.js";
import type { SheetSource, WorkbookSource } from "../source/index.js";
import { type ColumnValues, columnValues, middleOf } from "./column-values.js";
import { contentWord } from "./content-words.js";
import { guessedUnit, type SheetUnits, sheetUnits } from "./guess-units.js";
import { type ColumnHeading, columnHeading, hasHeading, MOST_HEADING_ROWS, upperRows } from "./heading-cells.js";
import type { HeadingMeaning } from "./heading-words.js";
import { kindInHeading } from "./read-own-heading.js";
import { type RowFormula, rowFormulaAt } from "./row-formula.js";

/** What one column is taken for, and why. */
export interface ProposedColumn {
  /** From 1. */
  readonly column: number;
  readonly heading: string;
  /** Null where it is taken for none that a list has. */
  readonly content: ColumnContent | null;
  readonly unit: MappedUnitName | null;
  readonly reason: string;
  /** What a person has to say before it is kept; "" where it is sure. */
  readonly question: string;
}

/** What one block of a sheet is taken for. */
export interface ProposedList {
  readonly list: number;
  readonly sheet: string;
  readonly headerRow: number;
  /** Where the list ends, since another begins below; null for as far as the sheet goes. */
  readonly lastRow: number | null;
  readonly columns: readonly ProposedColumn[];
  readonly stated: StatedForRows;
  /** Why something is stated for every row. */
  readonly statedReason: string;
  /** What the list lacks, each a sentence that says what to do. */
  readonly missing: readonly string[];
}

const MOST_COLUMNS = 120;
/** Nobody heads a list with fewer columns that are understood. */
const LEAST_UNDERSTOOD = 3;

interface Draft {
  readonly heading: ColumnHeading;
  readonly values: ColumnValues;
  content: ColumnContent | null;
  reason: string;
  question: string;
  unit: MappedUnitName | null;
}

const quotedHeading = (shown: string) => (shown === "" ? "no heading" : `heading “${shown}”`);

/** What the meaning of a heading is as a column of a list. */
function contentOf(meaning: HeadingMeaning | null, state: string | null): ColumnContent | null {
  const isTwo = state === "found" || state === "left";
  switch (meaning) {
    case null:
      return state === "design"
        ? { key: "design" }
        : isTwo
          ? { key: state }
          : state === "now"
            ? { key: "airflow" }
            : null;
    case "airflow":
      return { key: state === "design" ? "design" : isTwo ? state : "airflow" };
    case "percent":
      return { key: isTwo ? (`${state}Percent` as const) : "percent" };
    case "verdict":
      return { key: isTwo ? (`${state}Verdict` as const) : "verdict" };
    case "reading":
      return state === "design" ? null : { key: "reading", state: isTwo ? state : "now", holds: "velocity" };
    case "sweep":
      return { key: "reading", state: "now", holds: "sweep" };
    case "seconds":
      return { key: "reading", state: "now", holds: "seconds" };
    case "average":
      return null;
    default:
      return { key: meaning };
  }
}

const MEASURES: Readonly<Partial<Record<ListColumnKey, Measured>>> = {
  ...{ width: "length", height: "length", size: "length", diameter: "length" },
  ...{ area: "area", freeArea: "area", effectiveArea: "area", factor: "ratio" },
  ...{ design: "airflow", airflow: "airflow", found: "airflow", left: "airflow" },
  ...{ percent: "percent", foundPercent: "percent", leftPercent: "percent" },
};

/** What the figures of a content measure; undefined where it holds words. */
export function measuredBy(content: ColumnContent): Measured | undefined {
  if (content.key === "reading") return content.holds === "seconds" ? "seconds" : "velocity";
  return MEASURES[content.key];
}

/** Whether what stands in a column can be what its heading says; an empty column can be anything. */
function fits(content: ColumnContent, { numbers, texts, filledCount }: ColumnValues): boolean {
  if (filledCount === 0 || content.key === "size") return true;
  const measured = measuredBy(content);
  return measured === undefined || numbers.length >= texts.length;
}

const isSizeText = (text: string) => readOpeningSize(text, "in") !== undefined;

/** Takes a heading with the values below it for what both agree on. */
function drafted(heading: ColumnHeading, values: ColumnValues): Draft {
  const { read, shown } = heading;
  const draft: Draft = { heading, values, content: null, reason: "", question: "", unit: null };
  const sizes = values.texts.filter(isSizeText).length;
  const isSizes = sizes > 0 && sizes * 2 >= values.filledCount;
  if (read !== undefined) {
    draft.content = contentOf(read.meaning, read.state);
    draft.reason = quotedHeading(shown);
    if (read.meaning === null && read.state !== null && draft.content !== null && read.unit === null) {
      draft.reason += ", and numbers below it";
    }
  }
  const key = draft.content?.key;
  if (isSizes && (key === undefined || key === "width" || key === "diameter" || key === "area")) {
    draft.content = { key: "size" };
    draft.reason = `${quotedHeading(shown)}, and values such as “${values.texts.find(isSizeText)}”`;
    return draft;
  }
  // "Area" over Kitchen and Hall is the area served; "Air" over supply and return its kind.
  if (key === "area" && values.texts.length > values.numbers.length) {
    draft.content = { key: "room" };
    draft.reason += ", and words below it";
    draft.question = "Is this the room?";
    return draft;
  }
  if (draft.content !== null && key !== undefined && !fits(draft.content, values)) {
    draft.content = null;
    draft.reason += `, but ${values.texts.length === 0 ? "no numbers" : `words such as “${values.texts[0]}”`} below it`;
    return draft;
  }
  if (key === "kind" && values.numbers.length > values.texts.length) draft.content = { key: "airflow" };
  if (key === "size" && values.numbers.length > values.texts.length) {
    draft.question = "It holds one number. Is that a width, or a diameter?";
    draft.content = { key: "diameter" };
  }
  if (draft.content !== null && read !== undefined && !read.isWhole)
    draft.question = `Is this ${contentWord(draft.content)}?`;
  return draft;
}

/** Headings that number the rows rather than name them. */
const WEAK_TAG = /^(?:#|no\.?|nr\.?|n[.º°]*|item|number|pos\.?|position|id|mark)$/i;

function contentKey(content: ColumnContent): string {
  return content.key === "reading" ? "reading" : content.key;
}

/** Of two columns with one meaning one counts; the other is asked for. */
function withoutRepeats(drafts: readonly Draft[]): void {
  const byKey = new Map<string, Draft[]>();
  for (const draft of drafts) {
    if (draft.content === null || draft.content.key === "reading") continue;
    const same = byKey.get(contentKey(draft.content)) ?? [];
    byKey.set(contentKey(draft.content), [...same, draft]);
  }
  for (const [key, same] of byKey) {
    if (same.length < 2) continue;
    const [best] = [...same].sort((one, other) => rank(key, other) - rank(key, one));
    const isClear = same.filter((one) => rank(key, one) === rank(key, best as Draft)).length === 1;
    for (const draft of same) {
      if (draft === best) {
        if (!isClear && key !== "outlet")
          draft.question = `Another column says the same. Is this ${contentWord({ key: key as ListColumnKey })}?`;
        continue;
      }
      draft.content = null;
      draft.reason += `, which column ${best?.heading.shown || "another"} says as well`;
      draft.question = isClear || key === "outlet" ? "" : "What does this column hold?";
    }
  }
}

function rank(key: string, { heading, values, content }: Draft): number {
  const isWhole = heading.read?.isWhole === true ? 1 : 0;
  if (key === "outlet") return (WEAK_TAG.test(heading.shown) ? 0 : 4) + (values.texts.length > 0 ? 2 : 0) + isWhole;
  if (content?.key === "airflow") return (values.formulaCount > 0 ? 2 : 0) + isWhole;
  return isWhole * 2 + (values.filledCount > 0 ? 1 : 0);
}

/** What the formulas of the airflows show: which cells they average, what they multiply. */
function byFormulas(source: SheetSource, drafts: readonly Draft[]): readonly RowFormula[] {
  const airflows = drafts.filter(({ content }) => ["airflow", "found", "left"].includes(content?.key ?? ""));
  const formulas: RowFormula[] = [];
  for (const { heading, values, content } of airflows) {
    const formula = values.formulaRow === 0 ? undefined : rowFormulaAt(source, values.formulaRow, heading.column);
    if (formula === undefined) continue;
    formulas.push(formula);
    const state = content?.key === "found" || content?.key === "left" ? content.key : "now";
    for (const draft of drafts) {
      const { column } = draft.heading;
      if (formula.averaged.has(column) && draft.content?.key !== "reading") {
        const isOpen = draft.content === null || draft.heading.read?.isWhole !== true;
        if (!isOpen) continue;
        draft.content = { key: "reading", state, holds: "velocity" };
        draft.reason = `the airflow's formula averages it (${quotedHeading(draft.heading.shown)})`;
        draft.question = "";
      }
      if (formula.averaged.has(column) && draft.content?.key === "reading" && draft.content.state !== state) {
        draft.content = { ...draft.content, state };
      }
    }
    const sizes = drafts.filter(
      ({ heading: one, content: known, values: held }) =>
        known === null &&
        formula.columns.has(one.column) &&
        !formula.averaged.has(one.column) &&
        held.numbers.length > 0,
    );
    const hasSize = drafts.some(({ content: known }) => ["width", "size", "diameter"].includes(known?.key ?? ""));
    if (formula.constants.includes(144) && !hasSize && sizes.length === 2) {
      sizes.forEach((draft, index) => {
        draft.content = { key: index === 0 ? "width" : "height" };
        draft.reason = `the airflow's formula multiplies it and divides by 144 (${quotedHeading(draft.heading.shown)})`;
        draft.question = `Is this ${contentWord(draft.content)}?`;
      });
    }
  }
  return formulas;
}

/** Percents that no heading names: a quotient of the airflow and the design. */
function percentByFormula(source: SheetSource, drafts: readonly Draft[]): void {
  const columnOf = (key: ListColumnKey) => drafts.find(({ content }) => content?.key === key)?.heading.column;
  const design = columnOf("design");
  for (const draft of drafts) {
    if (draft.content !== null || draft.values.formulaRow === 0 || design === undefined) continue;
    const quotient = rowFormulaAt(source, draft.values.formulaRow, draft.heading.column)?.quotient;
    const state = (["airflow", "found", "left"] as const).find((key) => columnOf(key) === quotient?.[0]);
    if (quotient?.[1] !== design || state === undefined) continue;
    draft.content = { key: state === "airflow" ? "percent" : `${state}Percent` };
    draft.reason = "its formula divides the airflow by the design";
    draft.question = "";
  }
}

/** Sweeps have their seconds beside; an airflow as left alone is simply the airflow. */
function settled(drafts: readonly Draft[]): void {
  const readings = drafts.filter(({ content }) => content?.key === "reading");
  const of = (holds: string) => readings.filter(({ content }) => content?.key === "reading" && content.holds === holds);
  const [seconds, velocities] = [of("seconds"), of("velocity")];
  if (seconds.length > 0 && seconds.length === velocities.length) {
    for (const draft of velocities) draft.content = { key: "reading", state: "now", holds: "sweep" };
  } else if (seconds.length > 0 && of("sweep").length !== seconds.length) {
    for (const draft of seconds) {
      draft.content = null;
      draft.question = "There are not as many columns of seconds as of sweeps. What does this column hold?";
    }
  }
  const keys = new Set(drafts.flatMap(({ content }) => (content === null ? [] : [contentKey(content)])));
  const rename = (from: ListColumnKey, to: ListColumnKey) => {
    for (const draft of drafts) if (draft.content?.key === from) draft.content = { key: to };
  };
  const states = new Set(of("velocity").map(({ content }) => (content?.key === "reading" ? content.state : "now")));
  if (keys.has("found") && !keys.has("left") && keys.has("airflow")) {
    rename("airflow", "left");
    rename("percent", "leftPercent");
  } else if (keys.has("left") && !keys.has("found"))
    rename(keys.has("airflow") ? "airflow" : "left", keys.has("airflow") ? "found" : "airflow");
  else if (keys.has("found") && !keys.has("left")) rename("found", "airflow");
  if (keys.has("leftPercent") && !keys.has("foundPercent") && !(keys.has("found") && keys.has("left")))
    rename("leftPercent", "percent");
  const isTwo = drafts.some(({ content }) => content?.key === "left");
  if (states.size === 1 && !states.has("now") && !isTwo) {
    for (const draft of readings)
      if (draft.content?.key === "reading") draft.content = { ...draft.content, state: "now" };
  }
}

/** A single average that a person typed is the one reading that there is. */
function averagesAsReadings(drafts: readonly Draft[]): void {
  if (drafts.some(({ content }) => content?.key === "reading")) return;
  for (const draft of drafts) {
    const { values, heading } = draft;
    if (heading.read?.meaning !== "average" || values.formulaCount > 0) continue;
    draft.content = { key: "reading", state: "now", holds: "velocity" };
    draft.reason = `${quotedHeading(heading.shown)}, typed, and no single readings`;
  }
}

/** The factor that formulas apply without a column for it. */
function statedFactor(
  formulas: readonly RowFormula[],
  drafts: readonly Draft[],
): { readonly stated: StatedForRows; readonly reason: string } {
  const areas = ["factor", "freeArea", "effectiveArea"];
  if (drafts.some(({ content }) => areas.includes(content?.key ?? ""))) return { stated: {}, reason: "" };
  const factors = formulas.flatMap(({ constants }) => constants.filter((one) => one > 0.2 && one < 1));
  const [factor] = factors;
  if (factor !== undefined && factors.every((one) => one === factor)) {
    return { stated: { factor }, reason: `the airflow's formula multiplies by ${factor}` };
  }
  const isSized = drafts.some(({ content }) => ["width", "size", "diameter", "area"].includes(content?.key ?? ""));
  return isSized && formulas.length > 0 && factors.length === 0
    ? { stated: { factor: 1 }, reason: "the airflow's formula applies no factor" }
    : { stated: {}, reason: "" };
}

/** The kind that the headings of the outlets name for all of them. */
function statedKind(drafts: readonly Draft[]): StatedForRows {
  if (drafts.some(({ content }) => content?.key === "kind")) return {};
  const heading = drafts.find(({ content }) => content?.key === "outlet")?.heading.shown ?? "";
  const kind = kindInHeading(heading);
  return kind === undefined ? {} : { kind };
}

function missingOf(drafts: readonly Draft[]): readonly string[] {
  const has = (key: string) => drafts.some(({ content }) => content?.key === key);
  const lack = (what: string, example: string) =>
    `No column is known for ${what}. Say which, such as --set "D=${example}".`;
  return [
    ...(has("outlet") ? [] : [lack("the outlet", "outlet")]),
    ...(has("airflow") || has("left") || has("reading") ? [] : [lack("the airflow", "airflow cfm")]),
    ...(has("design") ? [] : [lack("the design airflow", "design cfm")]),
  ];
}

function unitsSettled(
  source: SheetSource,
  headerRow: number,
  drafts: readonly Draft[],
  formulas: readonly RowFormula[],
): void {
  const units: SheetUnits = sheetUnits(
    source,
    headerRow,
    drafts.flatMap(({ heading, content, values }) =>
      content === null ? [] : [{ unit: heading.read?.unit ?? null, content, values }],
    ),
    formulas,
  );
  for (const draft of drafts) {
    const { content, heading, values } = draft;
    const measured = content === null ? undefined : measuredBy(content);
    if (content === null || measured === undefined) continue;
    const named = heading.read?.unit ?? null;
    const stated = named !== null && MAPPED_UNITS[named].measures === measured ? named : null;
    const guess = stated === null ? guessedUnit(measured, values, units) : { unit: stated, reason: "", isSure: true };
    // A percent is 95 or, shown as one, 0.95; a percent of free area is a factor.
    const exact =
      measured === "percent" ? ((middleOf(values.numbers) ?? 100) < 3 ? "fraction" : "percent") : guess.unit;
    draft.unit = exact;
    if (stated === null && guess.reason !== "") draft.reason += `; ${guess.reason}`;
    if (exact === null || (stated === null && !guess.isSure && measured !== "percent")) {
      const question = exact === null ? "In which unit is it?" : `Is it in ${MAPPED_UNITS[exact].shown}?`;
      draft.question = draft.question === "" ? question : `${draft.question} ${question}`;
    }
  }
}

/** What the rows below a row of headings are taken for. */
function proposedAt(source: SheetSource, list: number, headerRow: number, lastRow: number | null): ProposedList {
  const lastColumn = Math.min(source.lastColumn, MOST_COLUMNS);
  const uppers = upperRows(source, headerRow, lastColumn);
  const drafts = Array.from({ length: lastColumn }, (_, index) => index + 1)
    .map((column) => {
      const values = columnValues(source, column, headerRow, lastRow ?? source.lastRow);
      return drafted(columnHeading(source, headerRow, uppers, column), values);
    })
    .filter(({ heading, values }) => heading.shown !== "" || values.filledCount > 0);
  withoutRepeats(drafts);
  const formulas = byFormulas(source, drafts);
  averagesAsReadings(drafts);
  settled(drafts);
  percentByFormula(source, drafts);
  unitsSettled(source, headerRow, drafts, formulas);
  const { stated: factor, reason } = statedFactor(formulas, drafts);
  const stated = { ...factor, ...statedKind(drafts) };
  return {
    list,
    sheet: source.name,
    headerRow,
    lastRow,
    stated,
    statedReason: reason,
    columns: drafts.map(({ heading, content, unit, reason: why, question }) => ({
      column: heading.column,
      heading: heading.shown,
      content,
      unit,
      reason: why,
      question,
    })),
    missing: missingOf(drafts),
  };
}

/** How much of a row, with what is above it, is understood as headings of a list of outlets. */
function scoreOf(source: SheetSource, row: number): number {
  const lastColumn = Math.min(source.lastColumn, MOST_COLUMNS);
  let [texts, figures] = [0, 0];
  for (let column = 1; column <= lastColumn; column += 1) {
    if (hasHeading(source, row, column)) texts += 1;
    else if (typeof source.valueAt(row, column) === "number") figures += 1;
  }
  // A row of figures is an outlet, whatever its words are.
  if (texts < 2 || figures * 2 >= texts) return 0;
  const uppers = upperRows(source, row, lastColumn);
  const meanings = new Set<string>();
  let [airflows, measured, whole] = [0, 0, 0];
  for (let column = 1; column <= lastColumn; column += 1) {
    const { read } = columnHeading(source, row, uppers, column);
    const content = read === undefined ? null : contentOf(read.meaning, read.state);
    if (read === undefined || (content === null && read.meaning !== "average")) continue;
    const values = columnValues(source, column, row, Math.min(source.lastRow, row + 30));
    if (content !== null && !fits(content, values) && content.key !== "area" && content.key !== "kind") continue;
    meanings.add(
      content === null ? "average" : content.key === "reading" ? `${content.key} ${content.state}` : content.key,
    );
    if (read.isWhole) whole += 1;
    const key = content?.key ?? "";
    if (["airflow", "found", "left", "design", "reading"].includes(key)) airflows += 1;
    if (["airflow", "found", "left", "reading"].includes(key)) measured += 1;
  }
  // Single readings that are told apart speak for the row in which their numbers are.
  return measured === 0 || meanings.size < LEAST_UNDERSTOOD ? 0 : meanings.size + whole / 100 + airflows / 10;
}

/** Rows that head a list: of rows close together the one that is best understood. */
function headingRows(source: SheetSource): readonly number[] {
  const scored: { row: number; score: number }[] = [];
  for (const row of source.rowsFrom(1)) {
    const score = scoreOf(source, row);
    if (score === 0) continue;
    const last = scored.at(-1);
    if (last === undefined || row - last.row >= MOST_HEADING_ROWS) scored.push({ row, score });
    else if (score >= last.score) scored[scored.length - 1] = { row, score };
  }
  return scored.map(({ row }) => row);
}

/** Which sheets and rows to look at. */
export interface WhereToLook {
  readonly sheet: string | null;
  /** The last row of the headings, where a person says it. */
  readonly headerRow: number | null;
}

/**
 * Says what the columns of somebody's own sheets seem to hold, each with its reason, and what has to be asked.
 *
 * Sheets whose lists are known already, by their headings or by a mapping, are looked at as well: the caller decides.
 */
export function proposeColumns(
  { sheets, names }: Pick<WorkbookSource, "sheets" | "names">,
  where: WhereToLook = { sheet: null, headerRow: null },
): readonly ProposedList[] {
  const kept = mappingsIn(names).value;
  const numbers = new Map(kept.map(({ sheet, headerRow, list }) => [`${sheet.toLowerCase()} ${headerRow}`, list]));
  let next = Math.max(0, ...kept.map(({ list }) => list));
  return sheets
    .filter(({ name }) => where.sheet === null || name.toLowerCase() === where.sheet.toLowerCase())
    .flatMap((source) => {
      const rows = where.headerRow === null ? headingRows(source) : [where.headerRow];
      return rows.map((row, index) => {
        const below = rows[index + 1];
        const known = numbers.get(`${source.name.toLowerCase()} ${row}`);
        if (known === undefined) next += 1;
        const lastRow = below === undefined ? null : below - 1 - upperRows(source, below, source.lastColumn).length;
        return proposedAt(source, known ?? next, row, lastRow);
      });
    });
}

/** The mapping that a proposal becomes once it is agreed to. */
export function mappingOf({ list, sheet, headerRow, lastRow, columns, stated }: ProposedList): ColumnMapping {
  return {
    list,
    sheet,
    headerRow,
    lastRow,
    stated,
    columns: columns.flatMap(({ column, content, unit }) => (content === null ? [] : [{ ...content, column, unit }])),
  };
}
