import { columnLetters } from "../../../xlsx/address.js";
import type { CalculatedCell } from "../../plan-file/index.js";
import { cell } from "../../template/plan-parts.js";
import type { CellContent, CellPlan, TablePlan } from "../../template/sheet-plan.js";
import type { FormatName, StyleName } from "../../template/style.js";

/** What stands in a cell of a report; null is an empty cell. */
export type ReportContent = number | string | null | ReportFormula;

/** A formula with the result that it has. */
export interface ReportFormula {
  readonly formula: string;
  /** Null where it shows nothing. */
  readonly result: number | null;
}

/** Cells of a report and, by address, what its formulas show. */
export interface ReportCells {
  readonly cells: readonly CellPlan[];
  readonly results: readonly (readonly [at: string, result: CalculatedCell])[];
}

/** Lays one cell. A text that begins like a formula is laid as a formula that gives the text, so it is never run. */
export function reportCell(
  at: string,
  content: ReportContent,
  style: StyleName,
  format: FormatName = "general",
): ReportCells {
  const { entry, result } = entryOf(content);
  return {
    cells: [cell(at, entry as number | string | null, style, format)],
    results: result === undefined ? [] : [[at, { value: result ?? "", message: "" }]],
  };
}

function entryOf(content: ReportContent): { readonly entry: CellContent; readonly result?: number | string | null } {
  if (typeof content === "string" && content.startsWith("=")) {
    return { entry: `="${content.replaceAll('"', '""')}"`, result: content };
  }
  if (typeof content === "object" && content !== null) return { entry: content.formula, result: content.result };
  return { entry: content };
}

/** Puts blocks of cells together. */
export function joined(...blocks: readonly ReportCells[]): ReportCells {
  return {
    cells: blocks.flatMap(({ cells }) => cells),
    results: blocks.flatMap(({ results }) => results),
  };
}

/** Spells the cell of a column, by its header, in the row of a formula. */
export type ReportRow = (header: string) => string;

/** One column of a report's table. */
export interface ReportColumn<T> {
  readonly header: string;
  /** "" where it has none. */
  readonly unit: string;
  readonly width: number;
  readonly format: FormatName;
  readonly style: StyleName;
  readonly of: (thing: T, at: ReportRow) => ReportContent;
}

/** A table of results, and how to name its columns from elsewhere. */
export interface ReportTable extends ReportCells {
  readonly table: TablePlan;
  readonly columnWidths: readonly number[];
  /** Of rows whose text needs several lines. */
  readonly rowHeights: Readonly<Record<number, number>>;
  /** A column's data with dollar signs: `$F$9:$F$48`. */
  readonly rangeOf: (header: string) => string;
  readonly lastColumn: string;
  readonly lastRow: number;
}

/** What frame and indent take of a column's width, in characters; and a line's height in points. */
const TEXT_MARGIN = 3;
const LINE_HEIGHT = 13.5;

/** Lays out a table of results, a row a thing; a table of nothing keeps one empty row, since no table has none. */
export function reportTable<T>(
  name: string,
  columns: readonly ReportColumn<T>[],
  things: readonly T[],
  headerRow: number,
): ReportTable {
  const lettersOf = (header: string) => {
    const index = columns.findIndex((column) => column.header === header);
    if (index < 0) throw new Error(`The table ${name} has no column ${header}.`);
    return columnLetters(index + 1);
  };
  const lastColumn = columnLetters(columns.length);
  const firstRow = headerRow + 1;
  const lastRow = headerRow + Math.max(things.length, 1);
  const hasUnits = columns.some(({ unit }) => unit !== "");
  const heads = columns.map(({ header, unit }, index) => {
    const letters = columnLetters(index + 1);
    return joined(
      ...(hasUnits ? [reportCell(`${letters}${headerRow - 1}`, unit === "" ? null : unit, "unit")] : []),
      reportCell(`${letters}${headerRow}`, header, "header"),
    );
  });
  const letters = columns.map((_, index) => columnLetters(index + 1));
  const lettersByHeader = new Map(columns.map(({ header }, index) => [header, letters[index]]));
  const rows: { cells: CellPlan[]; results: (readonly [at: string, result: CalculatedCell])[] } = {
    cells: [],
    results: [],
  };
  const rowHeights: Record<number, number> = {};
  things.forEach((thing, index) => {
    const row = firstRow + index;
    const at: ReportRow = (header) => `${lettersByHeader.get(header) ?? lettersOf(header)}${row}`;
    columns.forEach(({ of, style, format, width }, column) => {
      const content = of(thing, at);
      if (style === "resultWrapped" && typeof content === "string") {
        const lines = Math.ceil(content.length / (width - TEXT_MARGIN));
        if (lines > 1) rowHeights[row] = Math.max(rowHeights[row] ?? 0, lines * LINE_HEIGHT);
      }
      const { cells, results } = reportCell(`${letters[column]}${row}`, content, style, format);
      rows.cells.push(...cells);
      rows.results.push(...results);
    });
  });
  return {
    ...joined(...heads, rows),
    table: {
      name,
      range: `A${headerRow}:${lastColumn}${lastRow}`,
      columns: columns.map(({ header }) => ({ name: header, formula: null })),
    },
    columnWidths: columns.map(({ width }) => width),
    rowHeights,
    rangeOf: (header) => `$${lettersOf(header)}$${firstRow}:$${lettersOf(header)}$${lastRow}`,
    lastColumn,
    lastRow,
  };
}
