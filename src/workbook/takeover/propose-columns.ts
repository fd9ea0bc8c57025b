import { formatAddress } from "../../xlsx/address.js";
import {
  type ColumnContent,
  type ColumnMapping,
  type ListColumnKey,
  type ListTitle,
  MAPPED_UNITS,
  type MappedUnitName,
  mappingsIn,
  readOpeningSize,
  type StatedForRows,
  TITLE_USES,
  titlesIn,
  titleUse,
} from "../lists/index.js";
import { type SheetSource, shownCell, type WorkbookSource } from "../source/index.js";
import { contentOf, fits, measuredBy } from "./column-content.js";
import { type ColumnValues, columnValues, middleOf } from "./column-values.js";
import { contentWord } from "./content-words.js";
import { guessedUnit, type SheetUnits, sheetUnits } from "./guess-units.js";
import { type ColumnHeading, columnHeading, type Side, upperRows } from "./heading-cells.js";
import { headingRows, wholeSide } from "./heading-rows.js";
import { isSamePlace, overlaps } from "./keep-mappings.js";
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
  /** Its first and last column: another list may be beside it. */
  readonly firstColumn: number;
  readonly lastColumn: number;
  readonly columns: readonly ProposedColumn[];
  readonly stated: StatedForRows;
  /** Why something is stated for every row. */
  readonly statedReason: string;
  /** Texts alone in their rows, over or between the outlets, which may name a system or a room. */
  readonly titles: readonly string[];
  /** What the list lacks, each a sentence that says what to do. */
  readonly missing: readonly string[];
}

interface Draft {
  readonly heading: ColumnHeading;
  readonly values: ColumnValues;
  content: ColumnContent | null;
  reason: string;
  question: string;
  unit: MappedUnitName | null;
}

const quotedHeading = (shown: string) => (shown === "" ? "no heading" : `heading “${shown}”`);

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
  source: SheetSource,
  formulas: readonly RowFormula[],
  drafts: readonly Draft[],
): { readonly stated: StatedForRows; readonly reason: string } {
  const areas = ["factor", "freeArea", "effectiveArea"];
  if (drafts.some(({ content }) => areas.includes(content?.key ?? ""))) return { stated: {}, reason: "" };
  const isFactor = (value: unknown) => typeof value === "number" && value > 0.2 && value <= 1;
  const factorCells = formulas.flatMap(({ fixedCells }) =>
    fixedCells.filter(({ row, column }) => isFactor(source.valueAt(row, column))),
  );
  const [factorCell] = factorCells;
  if (
    factorCell !== undefined &&
    factorCells.every(({ row, column }) => row === factorCell.row && column === factorCell.column)
  ) {
    const at = formatAddress(factorCell.row, factorCell.column);
    return { stated: { factorCell }, reason: `the airflow's formula multiplies by ${at}` };
  }
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

/** A percent as 95, or as 0.95 that is shown as one; by its formula where nothing is calculated yet. */
function percentUnit(source: SheetSource, { heading, values }: Draft): "percent" | "fraction" {
  const middle = middleOf(values.numbers);
  if (middle !== undefined) return middle < 3 ? "fraction" : "percent";
  const formula = source.formulaAt(values.formulaRow, heading.column);
  return formula === undefined || /100/.test(formula) ? "percent" : "fraction";
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
    const exact = measured === "percent" ? percentUnit(source, draft) : guess.unit;
    draft.unit = exact;
    if (stated === null && guess.reason !== "") draft.reason += `; ${guess.reason}`;
    if (exact === null || (stated === null && !guess.isSure && measured !== "percent")) {
      const question = exact === null ? "In which unit is it?" : `Is it in ${MAPPED_UNITS[exact].shown}?`;
      draft.question = draft.question === "" ? question : `${draft.question} ${question}`;
    }
  }
}

/** A length is the width where a width or a height is beside it: of length and width the width is the height. */
function sidesByLength(drafts: readonly Draft[]): void {
  const sides = drafts.filter(({ content }) => content?.key === "width" || content?.key === "height");
  const [first, second] = sides;
  if (sides.length !== 2 || first === undefined || second === undefined) return;
  const isLength = ({ heading }: Draft) => heading.read?.meaning === "length";
  if (isLength(first) === isLength(second)) return;
  for (const draft of sides) draft.content = { key: isLength(draft) ? "width" : "height" };
}

/** What titles over and between the outlets name, where no column does and their words tell. */
function statedTitles(drafts: readonly Draft[], titles: readonly string[]): StatedForRows {
  const uses = titles.map(titleUse);
  const use = TITLE_USES.find(
    (one) =>
      uses.includes(one) && !drafts.some(({ content, values }) => content?.key === one && values.filledCount > 0),
  );
  return use === undefined ? {} : { titles: use };
}

/** Titles that outlets stand below: the last texts of a sheet are remarks. */
function titlesOver(
  source: SheetSource,
  area: Parameters<typeof titlesIn>[1],
  outletColumn: number | undefined,
): readonly string[] {
  const titles = titlesIn(source, area);
  const isTitle = new Set(titles.map(({ row }) => row));
  let lastOutlet = area.headerRow;
  for (const row of source.rowsFrom(area.headerRow + 1)) {
    if (row > area.lastRow) break;
    const column = outletColumn ?? area.firstColumn;
    if (!isTitle.has(row) && shownCell(source, row, column).kind !== "blank") lastOutlet = row;
  }
  // Over the headings may be the name of the job.
  const isMeant = ({ row, text }: ListTitle) =>
    row < lastOutlet && (row > area.headerRow || titleUse(text) !== undefined);
  return titles.filter(isMeant).map(({ text }) => text);
}

/** What the rows below a row of headings are taken for. */
function proposedAt(
  source: SheetSource,
  list: number,
  headerRow: number,
  lastRow: number | null,
  side: Side,
): ProposedList {
  const { firstColumn, lastColumn } = side;
  const uppers = upperRows(source, headerRow, side);
  const drafts = Array.from({ length: lastColumn - firstColumn + 1 }, (_, index) => firstColumn + index)
    .map((column) => {
      const values = columnValues(source, column, headerRow, lastRow ?? source.lastRow);
      return drafted(columnHeading(source, headerRow, uppers, column), values);
    })
    .filter(({ heading, values }) => heading.shown !== "" || values.filledCount > 0);
  sidesByLength(drafts);
  withoutRepeats(drafts);
  const formulas = byFormulas(source, drafts);
  averagesAsReadings(drafts);
  settled(drafts);
  percentByFormula(source, drafts);
  unitsSettled(source, headerRow, drafts, formulas);
  const { stated: factor, reason } = statedFactor(source, formulas, drafts);
  const outletColumn = drafts.find(({ content }) => content?.key === "outlet")?.heading.column;
  const titles = titlesOver(source, { headerRow, lastRow: lastRow ?? source.lastRow, ...side }, outletColumn);
  const stated = { ...factor, ...statedKind(drafts), ...statedTitles(drafts, titles) };
  return {
    list,
    sheet: source.name,
    headerRow,
    lastRow,
    ...side,
    titles,
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
  let next = Math.max(0, ...kept.map(({ list }) => list));
  return sheets
    .filter(({ name }) => where.sheet === null || name.toLowerCase() === where.sheet.toLowerCase())
    .flatMap((source) => {
      const rows = where.headerRow === null ? headingRows(source) : [{ row: where.headerRow, ...wholeSide(source) }];
      return rows.map(({ row, ...side }) => {
        const below = rows.filter((other) => other.row > row && overlaps(other, side));
        const following = below[0];
        const known = kept.find((one) => isSamePlace(one, { sheet: source.name, headerRow: row, ...side }))?.list;
        if (known === undefined) next += 1;
        const lastRow =
          following === undefined ? null : following.row - 1 - upperRows(source, following.row, following).rows.length;
        return proposedAt(source, known ?? next, row, lastRow, side);
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
