import { jobLine } from "./job-line.js";
import { verdictFormats } from "./plain-formulas.js";
import { cell, EMPTY_SHEET } from "./plan-parts.js";
import type { CellPlan, ConditionalFormatPlan, PrintPlan, SheetPlan, ValidationPlan } from "./sheet-plan.js";
import { type TableSpec, tableBlock, tablePlaces } from "./table-block.js";

/** The first column stays in sight and is repeated in print: a title that began in it would be cut at its edge. */
const TITLE_COLUMN = "B";

/** Text of 10 points is printed at 8. */
const SCALE_PERCENT = 80;

/**
 * A table printed across, its header on every page.
 *
 * @param lastOfPages - Keys of the columns after which a new page begins beside; one page wide where there are none
 */
export function tablePrint(spec: TableSpec, lastOfPages: readonly string[] = []): PrintPlan {
  const { lastColumn, lastRow } = tablePlaces(spec);
  return {
    orientation: "landscape",
    area: `A1:${lastColumn}${lastRow}`,
    repeatedRows: `${spec.headerRow - 1}:${spec.headerRow}`,
    fitToPagesHigh: null,
    ...(lastOfPages.length === 0
      ? {}
      : {
          sideBySide: {
            breakAfter: lastOfPages.map(tablePlaces(spec).lettersOf),
            repeatedColumns: "A:A",
            scalePercent: SCALE_PERCENT,
          },
        }),
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
  /** Keys of the columns after which the print goes on beside, on a new page. */
  readonly pagesEndAfter?: readonly string[];
}

/** Lays out a sheet whose work is one table: title, job line, a word on what it is for, the table. */
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
      cell(`${TITLE_COLUMN}2`, jobLine(), "lead"),
      cell(`${TITLE_COLUMN}3`, spec.lead, "lead"),
      ...(spec.above ?? []),
      ...block.cells,
    ],
    merges: spec.merges ?? [],
    frozen: { rows: table.headerRow, columns: 1 },
    tables: [block.table],
    validations: [...(spec.aboveValidations ?? []), ...block.validations],
    conditionalFormats: [...verdicts.flatMap((key) => verdictFormats(block.rangeOf(key))), ...(spec.formats ?? [])],
    print: tablePrint(table, spec.pagesEndAfter),
  };
}
