import { jobLine } from "./job-line.js";
import { verdictFormats } from "./native.js";
import { cell, EMPTY_SHEET } from "./plan-parts.js";
import type { CellPlan, ConditionalFormatPlan, PrintPlan, SheetPlan, ValidationPlan } from "./sheet-plan.js";
import { type TableSpec, tableBlock, tablePlaces } from "./table-block.js";

/** A table printed across, its header on every page. */
export function tablePrint(spec: TableSpec): PrintPlan {
  const { lastColumn, lastRow } = tablePlaces(spec);
  return {
    orientation: "landscape",
    area: `A1:${lastColumn}${lastRow}`,
    repeatedRows: `${spec.headerRow - 1}:${spec.headerRow}`,
    fitToPagesHigh: null,
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
      cell("A1", spec.title, "title"),
      cell("A2", jobLine(), "lead"),
      cell("A3", spec.lead, "lead"),
      ...(spec.above ?? []),
      ...block.cells,
    ],
    merges: spec.merges ?? [],
    frozen: { rows: table.headerRow, columns: 1 },
    tables: [block.table],
    validations: [...(spec.aboveValidations ?? []), ...block.validations],
    conditionalFormats: [...verdicts.flatMap((key) => verdictFormats(block.rangeOf(key))), ...(spec.formats ?? [])],
    print: tablePrint(table),
  };
}
