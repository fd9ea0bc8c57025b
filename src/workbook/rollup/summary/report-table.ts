import { columnLetters } from "../../../xlsx/address.js";
import type { CalculatedCell } from "../../plan-file/index.js";
import { cell } from "../../template/plan-parts.js";
import type { CellPlan, RowContent, RowPlan, RowsPlan, TablePlan } from "../../template/sheet-plan.js";
import type { FormatName, StyleName } from "../../template/style.js";

/** Cells of a report and, by address, what its formulas show. */
export interface ReportCells {
  readonly cells: readonly CellPlan[];
  readonly results: readonly (readonly [at: string, result: CalculatedCell])[];
}

/** Lays one cell. A text that begins like a formula is laid as a formula that gives the text, so it is never run. */
export function reportCell(
  at: string,
  content: RowContent,
  style: StyleName,
  format: FormatName = "general",
): ReportCells {
  const shown = neverRun(content);
  if (typeof shown !== "object" || shown === null) return { cells: [cell(at, shown, style, format)], results: [] };
  return {
    cells: [cell(at, shown.formula, style, format)],
    results: [[at, { value: shown.result ?? "", message: "" }]],
  };
}

/** A text that begins like a formula as a formula that gives the text. */
function neverRun(content: RowContent): RowContent {
  if (typeof content !== "string" || !content.startsWith("=")) return content;
  return { formula: `="${content.replaceAll('"', '""')}"`, result: content };
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
  readonly of: (thing: T, at: ReportRow) => RowContent;
}

/** A table of results, its headers as cells, and how to name its columns from elsewhere. */
export interface ReportTable extends ReportCells {
  readonly table: TablePlan;
  readonly rows: RowsPlan;
  readonly columnWidths: readonly number[];
  /** A column's data with dollar signs: `$F$9:$F$48`. */
  readonly rangeOf: (header: string) => string;
  readonly lastColumn: string;
  readonly lastRow: number;
}

/** What frame and indent take of a column's width, in characters; and a line's height in points. */
const TEXT_MARGIN = 3;
const LINE_HEIGHT = 13.5;

/** The height of a row whose text needs several lines. */
function heightOf(
  contents: readonly RowContent[],
  columns: readonly Pick<ReportColumn<never>, "style" | "width">[],
): number | null {
  let most = 1;
  for (const [index, { style, width }] of columns.entries()) {
    const content = contents[index] ?? null;
    const text = typeof content === "object" ? content?.result : content;
    if (style !== "resultWrapped" || typeof text !== "string") continue;
    most = Math.max(most, Math.ceil(text.length / (width - TEXT_MARGIN)));
  }
  return most === 1 ? null : most * LINE_HEIGHT;
}

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
  const lettersByHeader = new Map(columns.map(({ header }, index) => [header, columnLetters(index + 1)]));
  function* rows(): Generator<RowPlan> {
    let row = firstRow;
    const at: ReportRow = (header) => `${lettersByHeader.get(header) ?? lettersOf(header)}${row}`;
    for (const thing of things) {
      const contents = columns.map(({ of }) => neverRun(of(thing, at)));
      yield { contents, height: heightOf(contents, columns) };
      row += 1;
    }
  }
  return {
    ...joined(...heads),
    table: {
      name,
      range: `A${headerRow}:${lastColumn}${lastRow}`,
      columns: columns.map(({ header }) => ({ name: header, formula: null })),
    },
    rows: { firstRow, count: things.length, looks: columns.map(({ style, format }) => ({ style, format })), rows },
    columnWidths: columns.map(({ width }) => width),
    rangeOf: (header) => `$${lettersOf(header)}$${firstRow}:$${lettersOf(header)}$${lastRow}`,
    lastColumn,
    lastRow,
  };
}
