import {
  type ColumnContent,
  type ColumnMapping,
  type ListTitle,
  MAPPED_UNITS,
  type MappedUnitName,
  mappingsIn,
  type StatedForRows,
  TITLE_USES,
  titlesIn,
  titleUse,
} from "../lists/index.js";
import { type SheetSource, shownCell, type WorkbookSource } from "../source/index.js";
import { measuredBy } from "./column-content.js";
import { type Draft, drafted, withoutRepeats } from "./column-draft.js";
import { columnValues, middleOf } from "./column-values.js";
import {
  askUnknownOperands,
  byFormulas,
  factorsByFormula,
  percentByFormula,
  statedFactor,
} from "./columns-by-formula.js";
import { guessedUnit, type SheetUnits, sheetUnits } from "./guess-units.js";
import { columnHeading, type Side, upperRows } from "./heading-cells.js";
import { headingRows, wholeSide } from "./heading-rows.js";
import { isSamePlace, overlaps } from "./keep-mappings.js";
import { kindInHeading } from "./read-own-heading.js";
import type { RowFormula } from "./row-formula.js";
import { averagesAsReadings, settled, sidesByLength } from "./settle-columns.js";

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
  factorsByFormula(drafts, formulas);
  askUnknownOperands(drafts, formulas);
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
