import { EMPTY_SHEET } from "../../template/plan-parts.js";
import type { PagesSideBySide, SheetPlan } from "../../template/sheet-plan.js";
import {
  joined,
  type ReportCells,
  type ReportColumn,
  type ReportTable,
  reportCell,
  reportTable,
} from "./report-table.js";

/** A sheet of a report, with the results of its formulas. */
export interface ReportSheet extends ReportCells {
  readonly sheet: SheetPlan;
}

/** A sheet that is a table of results, which other sheets may name. */
export interface TableReport extends ReportSheet {
  readonly block: ReportTable;
}

/** Row of the headers; above it stand title, lead, units and, where there are totals, these. */
const HEADER_ROW = 5;
const HEADER_ROW_BELOW_TOTALS = 8;
/** Row of the labels of totals; these stand below. */
export const BAND_ROW = 4;

/** A column of texts. */
export function textColumn<T>(header: string, width: number, of: (thing: T) => string | null): ReportColumn<T> {
  return { header, unit: "", width, format: "general", style: "resultText", of };
}

/** A column of texts that may need several lines, such as the path of a workbook or a sentence. */
export function wrappedColumn<T>(header: string, width: number, of: (thing: T) => string | null): ReportColumn<T> {
  return { header, unit: "", width, format: "general", style: "resultWrapped", of };
}

/** Text of 10 points is printed at 6.5, the least that is read without a glass. Chosen by us. */
const SCALE_PERCENT = 65;

/**
 * Lays a table out as a sheet, with its headers on every page.
 *
 * @param lastOfPage - The header after which the print goes on beside, its first column repeated; one page wide without
 */
export function tableReport<T>(
  name: string,
  lead: string,
  columns: readonly ReportColumn<T>[],
  things: readonly T[],
  band: ((block: ReportTable) => ReportCells) | null,
  lastOfPage: string | null = null,
): TableReport {
  const headerRow = band === null ? HEADER_ROW : HEADER_ROW_BELOW_TOTALS;
  const block = reportTable(name.replaceAll(" ", "_"), columns, things, headerRow);
  // On pages side by side the first column stands again, and a sentence under the title would be cut off there.
  const leadAt = lastOfPage === null ? "A2" : "B1";
  const head = joined(reportCell("A1", name, "title"), reportCell(leadAt, lead, "lead"));
  const all = band === null ? joined(head, block) : joined(head, band(block), block);
  const sheet: SheetPlan = {
    ...EMPTY_SHEET,
    name,
    role: "report",
    columnWidths: block.columnWidths,
    rowHeights: {
      1: 26,
      ...(band === null ? {} : { [BAND_ROW]: 28, [BAND_ROW + 1]: 20 }),
      [headerRow]: 42,
    },
    cells: all.cells,
    rows: block.rows,
    frozen: { rows: headerRow, columns: 1 },
    tables: [block.table],
    print: {
      orientation: "landscape",
      area: `A1:${block.lastColumn}${block.lastRow}`,
      repeatedRows: `${headerRow - 1}:${headerRow}`,
      fitToPagesHigh: null,
      ...(lastOfPage === null ? {} : { sideBySide: sideBySide(block, columns, lastOfPage) }),
    },
  };
  return { ...all, sheet, block };
}

/** On a letter page across, so many characters wide at the scale. */
const PAGE_WIDTH = 172;

/** Pages side by side: a break after the header that is named, and wherever the next columns would not fit. */
function sideBySide<T>(block: ReportTable, columns: readonly ReportColumn<T>[], lastOfPage: string): PagesSideBySide {
  const lettersOf = (header: string) => /[A-Z]+/.exec(block.rangeOf(header))?.[0] ?? "A";
  const breakAfter: string[] = [];
  let width = 0;
  for (const [index, column] of columns.entries()) {
    width += column.width;
    const next = columns[index + 1];
    if (next === undefined) break;
    if (column.header === lastOfPage || width + next.width > PAGE_WIDTH) {
      breakAfter.push(lettersOf(column.header));
      width = columns[0]?.width ?? 0;
    }
  }
  return { breakAfter, repeatedColumns: "A:A", scalePercent: SCALE_PERCENT };
}
