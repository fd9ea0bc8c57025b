import { type CellRange, formatRange, parseRange } from "../../xlsx/address.js";
import type { CellBlock, CellValue, InteractiveHost } from "../host.js";
import { heightColumn, outletColumn, widthColumn } from "../template/common-columns.js";
import { ROWS } from "../template/duct-traverse/places.js";
import { type KnownTable, type SheetPlace, shownBlock } from "./sheet-place.js";

/** As far as headers are looked for; every template has its own well within. */
const LAST_HEADER_ROW = 40;
const LAST_COLUMN = 60;

/** The header of the column with the airflow, whose formula shows that a row belongs to the table. */
const RESULT_HEADER = { outlets: "Airflow", sweeps: "Airflow", changes: "Airflow before" } as const;

/** Headers that make a table known: the size, and the first cell of its readings. */
const SIGNATURES: readonly (readonly [KnownTable, readonly string[]])[] = [
  ["sweeps", ["V1", "s1"]],
  ["changes", ["B1", "A1"]],
  ["outlets", ["R1"]],
];

function columnsByHeader(cells: readonly CellValue[]): ReadonlyMap<string, number> {
  const columns = new Map<string, number>();
  cells.forEach((value, index) => {
    if (typeof value === "string" && !columns.has(value.trim())) columns.set(value.trim(), index + 1);
  });
  return columns;
}

function knownTable(columns: ReadonlyMap<string, number>): KnownTable | null {
  if (!columns.has(widthColumn.header) || !columns.has(heightColumn.header)) return null;
  const found = SIGNATURES.find(([table, headers]) =>
    [...headers, RESULT_HEADER[table]].every((one) => columns.has(one)),
  );
  return found?.[0] ?? null;
}

function isTraverseSheet({ values }: CellBlock): boolean {
  const header = values[ROWS.gridHeader - 1] ?? [];
  return values[0]?.[0] === "Duct traverse" && header[0] === "Point" && header[2] === "Line A";
}

const textOf = (value: CellValue | undefined) =>
  typeof value === "string" || typeof value === "number" ? `${value}` : "";

function rowPlace(sheet: string, selected: CellRange, head: CellBlock, row: CellBlock): SheetPlace | null {
  const last = Math.min(selected.firstRow - 1, LAST_HEADER_ROW);
  for (let headerRow = last; headerRow >= 1; headerRow -= 1) {
    const columns = columnsByHeader(head.values[headerRow - 1] ?? []);
    const table = knownTable(columns);
    if (table === null) continue;
    const resultColumn = columns.get(RESULT_HEADER[table]) ?? 0;
    if (row.formulas[0]?.[resultColumn - 1] == null) return null;
    const [first = 0, lastAfter = 0] = [columns.get("A1"), columns.get("A4")];
    const isAfter = table === "changes" && selected.firstColumn >= first && selected.firstColumn <= lastAfter;
    const tag = textOf(row.values[0]?.[(columns.get(outletColumn.header) ?? 0) - 1]);
    return { kind: "row", table, sheet, row: selected.firstRow, columns, tag, phase: isAfter ? "after" : "before" };
  }
  return null;
}

function lastReadColumn(usedRange: string | null): number {
  return Math.min(Math.max(parseRange(usedRange ?? "")?.lastColumn ?? 1, 1), LAST_COLUMN);
}

/** Finds out where the selection would put a measurement: a row of a known table, a traverse sheet, an empty cell. */
export async function findPlace(host: InteractiveHost): Promise<SheetPlace> {
  const selection = await host.selection();
  const selected = parseRange(selection?.range ?? "");
  if (selection === null || selected === undefined) {
    return { kind: "none", reason: "Nothing that holds cells is selected. Select one cell in the sheet." };
  }
  const { sheet } = selection;
  const info = (await host.sheets()).find(({ name }) => name === sheet);
  const lastColumn = lastReadColumn(info?.usedRange ?? null);
  const lastRow = Math.min(Math.max(parseRange(info?.usedRange ?? "")?.lastRow ?? 1, 1), LAST_HEADER_ROW);
  const block = (firstRow: number, last: number) => ({
    sheet,
    range: formatRange({ firstRow, firstColumn: 1, lastRow: last, lastColumn }),
  });
  const { firstRow: row, firstColumn: column } = selected;
  const [head, selectedRow, cell] = await host.read([
    block(1, lastRow),
    block(row, row),
    { sheet, range: formatRange({ ...selected, lastRow: row, lastColumn: column }) },
  ]);
  if (head !== undefined && isTraverseSheet(head)) return { kind: "traverse sheet", sheet };
  const inTable = head && selectedRow ? rowPlace(sheet, selected, head, selectedRow) : null;
  if (inTable !== null) return inTable;
  if (cell?.values[0]?.[0] === null && cell.formulas[0]?.[0] === null)
    return { kind: "empty cell", sheet, row, column };
  const reason = `${shownBlock(selection)} is in use and in no table that is known here. Select a row of a table from a template, or an empty cell.`;
  return { kind: "none", reason };
}
