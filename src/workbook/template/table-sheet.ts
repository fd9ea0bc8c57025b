import { columnLetters } from "../../xlsx/address.js";
import { titledJobLine } from "./job-line.js";
import { verdictFormats } from "./plain-formulas.js";
import { cell, EMPTY_SHEET } from "./plan-parts.js";
import type { CellPlan, ConditionalFormatPlan, PrintPlan, SheetPlan, ValidationPlan } from "./sheet-plan.js";
import { type ColumnSpec, type TableSpec, tableBlock, tablePlaces } from "./table-block.js";

/** The first column stays in sight and is repeated in print: a title that began in it would be cut at its edge. */
const TITLE_COLUMN = "B";

/** Text of 10 points is printed at 8. */
const SCALE_PERCENT = 80;

/** So many characters of ten points stand beside one another on Letter at that scale in any usual face; A4 is wider. */
const PAGE_CHARACTERS = 145;

const widthOf = (columns: readonly ColumnSpec[]) => columns.reduce((sum, { width }) => sum + width, 0);

/** Parts columns at the ends of their sections. */
function sectionsOf(columns: readonly ColumnSpec[], ends: readonly string[]): readonly (readonly ColumnSpec[])[] {
  const sections: ColumnSpec[][] = [[]];
  for (const column of columns) {
    sections.at(-1)?.push(column);
    if (ends.includes(column.key)) sections.push([]);
  }
  return sections.filter((section) => section.length > 0);
}

/**
 * Lays columns out on pages beside one another: whole sections while they fit, and a section that is wider than a page on
 * as many as it needs. The first column is repeated on each.
 *
 * @returns The keys of the last columns of all pages but the last
 */
function pageEnds({ columns }: TableSpec, sectionEnds: readonly string[]): readonly string[] {
  const [first] = columns;
  const room = PAGE_CHARACTERS - (first?.width ?? 0);
  const ends: string[] = [];
  let used = 0;
  let last = first;
  const begin = () => {
    if (last !== undefined) ends.push(last.key);
    used = 0;
  };
  for (const section of sectionsOf(columns.slice(1), sectionEnds)) {
    if (used > 0 && used + widthOf(section) > room) begin();
    for (const column of section) {
      if (used + column.width > room) begin();
      used += column.width;
      last = column;
    }
  }
  return ends;
}

/** The last columns of the printed pages of a table, counted from 1. */
export function pageEndColumns(spec: TableSpec, sectionEnds: readonly string[] = []): readonly number[] {
  return pageEnds(spec, sectionEnds).map((key) => spec.columns.findIndex((column) => column.key === key) + 1);
}

/** The row over a table's units, which every page repeats. */
const lineRow = ({ headerRow }: TableSpec) => headerRow - 2;

/**
 * The line over a table, once for each of the pages beside one another: what it is and which job.
 *
 * @param sectionEnds - Keys of the columns after which a new page may begin beside
 */
export function pageLines(spec: TableSpec, title: string, sectionEnds: readonly string[] = []): readonly CellPlan[] {
  const line = titledJobLine(title);
  const begins = pageEndColumns(spec, sectionEnds).map((column) => column + 1);
  return [2, ...begins].map((column) => cell(`${columnLetters(column)}${lineRow(spec)}`, line, "lead"));
}

/**
 * A table printed across, its job and its header on every page, in text of at least 8 points.
 *
 * @param sectionEnds - Keys of the columns after which a new page may begin beside
 */
export function tablePrint(spec: TableSpec, sectionEnds: readonly string[] = []): PrintPlan {
  const { lastColumn, lastRow } = tablePlaces(spec);
  return {
    orientation: "landscape",
    area: `A1:${lastColumn}${lastRow}`,
    repeatedRows: `${lineRow(spec)}:${spec.headerRow}`,
    fitToPagesHigh: null,
    sideBySide: {
      breakAfter: pageEnds(spec, sectionEnds).map(tablePlaces(spec).lettersOf),
      repeatedColumns: "A:A",
      scalePercent: SCALE_PERCENT,
    },
  };
}

/** A sheet of one table, and what it adds over the table. */
export interface TableSheetSpec {
  readonly name: string;
  readonly title: string;
  readonly lead: string;
  readonly table: TableSpec;
  /** Keys of the columns that hold a verdict. */
  readonly verdicts?: readonly string[];
  readonly above?: readonly CellPlan[];
  readonly aboveValidations?: readonly ValidationPlan[];
  readonly formats?: readonly ConditionalFormatPlan[];
  readonly merges?: readonly string[];
  readonly rowHeights?: Readonly<Record<number, number>>;
  /** Keys of the columns after which the print may go on beside, on a new page. */
  readonly sectionsEndAfter?: readonly string[];
}

/** Lays out a sheet whose work is one table: title, a word on what it is for, the job, the table. */
export function tableSheet(spec: TableSheetSpec): SheetPlan {
  const { table } = spec;
  const block = tableBlock(table);
  const verdicts = spec.verdicts ?? ["verdict"];
  return {
    ...EMPTY_SHEET,
    name: spec.name,
    role: "work",
    columnWidths: block.columnWidths,
    rowHeights: { 1: 26, [table.headerRow]: 56, ...spec.rowHeights },
    cells: [
      cell(`${TITLE_COLUMN}1`, spec.title, "title"),
      cell(`${TITLE_COLUMN}2`, spec.lead, "lead"),
      ...pageLines(table, spec.title, spec.sectionsEndAfter),
      ...(spec.above ?? []),
      ...block.cells,
    ],
    merges: spec.merges ?? [],
    frozen: { rows: table.headerRow, columns: 1 },
    tables: [block.table],
    validations: [...(spec.aboveValidations ?? []), ...block.validations],
    conditionalFormats: [...verdicts.flatMap((key) => verdictFormats(block.rangeOf(key))), ...(spec.formats ?? [])],
    print: tablePrint(table, spec.sectionsEndAfter),
  };
}
