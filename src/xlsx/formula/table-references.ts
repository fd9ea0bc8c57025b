import { columnLetters } from "../address.js";
import type { Table } from "../sheet.js";
import { scanFormula } from "./scan-formula.js";

/** A table and the sheet on which it stands. */
export interface PlacedTable {
  readonly sheet: string;
  readonly table: Pick<Table, "name" | "range" | "headerRows" | "totalsRows"> & {
    readonly columns: readonly { readonly name: string }[];
  };
}

/** The cell in which a formula stands: `#This Row` means its row, and a bare `[@Width]` the table around it. */
export interface FormulaCell {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

interface Block {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** Special items, columns in order, and whether a column range is meant: `[[#This Row],[Width]:[Height]]`. */
interface Specifier {
  readonly items: readonly string[];
  readonly columns: readonly string[];
}

/**
 * Spells references to tables as references to cells: `Outlets[[#This Row],[Width]]` in row 7 becomes `Rooms!$B7`.
 *
 * @param formula - As a file stores it or as Excel shows it (`[@Width]`), without the equals sign
 * @param cell - The cell in which it stands
 * @param tables - The tables of the workbook
 * @returns The formula; undefined when it names a table, column or item that is not there
 */
export function withoutTableReferences(
  formula: string,
  cell: FormulaCell,
  tables: readonly PlacedTable[],
): string | undefined {
  if (!formula.includes("[")) return formula;
  const tokens = scanFormula(formula);
  const pieces: string[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index];
    const next = tokens[index + 1];
    if (token === undefined) break;
    const isNamed = token.kind === "name" && next?.kind === "bracket";
    if (!isNamed && token.kind !== "bracket") {
      pieces.push(token.text);
      continue;
    }
    const placed = isNamed ? tableNamed(token.text, tables) : tableAround(cell, tables);
    const specifier = readSpecifier(isNamed ? next.text : token.text);
    const reference = placed && referenceTo(placed, specifier, cell.row);
    if (reference === undefined) return undefined;
    pieces.push(reference);
    if (isNamed) index += 1;
  }
  return pieces.join("");
}

function tableNamed(name: string, tables: readonly PlacedTable[]): PlacedTable | undefined {
  return tables.find(({ table }) => table.name.toLowerCase() === name.toLowerCase());
}

function tableAround({ sheet, row, column }: FormulaCell, tables: readonly PlacedTable[]): PlacedTable | undefined {
  return tables.find(({ sheet: home, table: { range } }) => {
    const isInRows = row >= range.firstRow && row <= range.lastRow;
    return home === sheet && isInRows && column >= range.firstColumn && column <= range.lastColumn;
  });
}

/** Reads what stands in brackets after a table's name; a quote before a special character takes it as it is. */
function readSpecifier(bracket: string): Specifier {
  const whole = bracket.slice(1, -1).trim();
  const isThisRow = whole.startsWith("@");
  const inner = isThisRow ? whole.slice(1).trim() : whole;
  const parts = inner.startsWith("[")
    ? [...inner.matchAll(/\[((?:'.|[^'\]])*)\]/g)].map(([, part]) => part ?? "")
    : [inner];
  const plain = parts.map((part) => part.replace(/'(.)/g, "$1").trim()).filter((part) => part !== "");
  if (isThisRow) return { items: ["#this row"], columns: plain };
  return {
    items: plain.filter((part) => part.startsWith("#")).map((part) => part.toLowerCase()),
    columns: plain.filter((part) => !part.startsWith("#")),
  };
}

function referenceTo({ sheet, table }: PlacedTable, specifier: Specifier, row: number): string | undefined {
  const rows = rowsMeant(table, specifier.items, row);
  const columns = columnsMeant(table, specifier.columns);
  if (rows === undefined || columns === undefined) return undefined;
  const moves = specifier.items.length === 1 && specifier.items[0] === "#this row";
  return spell(sheet, { ...rows, ...columns }, moves ? "" : "$");
}

function rowsMeant(
  table: PlacedTable["table"],
  items: readonly string[],
  row: number,
): Pick<Block, "firstRow" | "lastRow"> | undefined {
  const { firstRow, lastRow } = table.range;
  const firstData = firstRow + table.headerRows;
  const lastData = lastRow - table.totalsRows;
  if (items.length === 0) return { firstRow: firstData, lastRow: lastData };
  const spans = items.map((item) => {
    if (item === "#this row") return row >= firstData && row <= lastData ? [row, row] : undefined;
    if (item === "#all") return [firstRow, lastRow];
    if (item === "#data") return [firstData, lastData];
    if (item === "#headers") return table.headerRows > 0 ? [firstRow, firstData - 1] : undefined;
    if (item === "#totals") return table.totalsRows > 0 ? [lastData + 1, lastRow] : undefined;
    return undefined;
  });
  const known = spans.filter((span) => span !== undefined);
  if (known.length < spans.length) return undefined;
  return {
    firstRow: Math.min(...known.map(([from]) => from as number)),
    lastRow: Math.max(...known.map(([, to]) => to as number)),
  };
}

function columnsMeant(
  table: PlacedTable["table"],
  names: readonly string[],
): Pick<Block, "firstColumn" | "lastColumn"> | undefined {
  const { firstColumn, lastColumn } = table.range;
  if (names.length === 0) return { firstColumn, lastColumn };
  const places = names.map((name) =>
    table.columns.findIndex((column) => column.name.toLowerCase() === name.toLowerCase()),
  );
  if (places.includes(-1)) return undefined;
  return { firstColumn: firstColumn + Math.min(...places), lastColumn: firstColumn + Math.max(...places) };
}

/** The row of `#This Row` has no dollar sign: the formulas of a column then read the same from their own cells. */
function spell(sheet: string, { firstRow, lastRow, firstColumn, lastColumn }: Block, beforeRow: "" | "$"): string {
  const fixed = (row: number, column: number) => `$${columnLetters(column)}${beforeRow}${row}`;
  const first = fixed(firstRow, firstColumn);
  const last = fixed(lastRow, lastColumn);
  return `'${sheet.replaceAll("'", "''")}'!${first === last ? first : `${first}:${last}`}`;
}
