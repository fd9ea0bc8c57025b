import { columnLetters } from "../../xlsx/address.js";
import { cell, type InputRule, quotedSheet } from "./plan-parts.js";
import type { CellPlan, TablePlan, ValidationPlan } from "./sheet-plan.js";
import type { FormatName, StyleName } from "./style.js";

/** Spells the cell of a column, by its key, in the row for which a formula is written: `F8`. */
export type RowCell = (key: string) => string;

interface ColumnBase {
  readonly key: string;
  readonly header: string;
  /** What stands above the header: a unit, or a formula that gives it. */
  readonly unit: string;
  readonly width: number;
  readonly format: FormatName;
}

export interface InputColumn extends ColumnBase {
  readonly kind: "input";
  readonly style: StyleName;
  readonly rule: InputRule;
}

export interface ResultColumn extends ColumnBase {
  readonly kind: "result";
  readonly style: StyleName;
  /** The formula of a row; it names cells of its own row, and blocks by absolute rows only. */
  readonly formula: (at: RowCell) => string;
}

export type ColumnSpec = InputColumn | ResultColumn;

export interface TableSpec {
  readonly name: string;
  readonly columns: readonly ColumnSpec[];
  readonly headerRow: number;
  readonly rowCount: number;
}

/** A table with its cells, in the forms that a sheet plan takes. */
export interface TableBlock {
  readonly cells: readonly CellPlan[];
  readonly table: TablePlan;
  readonly validations: readonly ValidationPlan[];
  readonly columnWidths: readonly number[];
  /** All data cells of a column, without dollar signs: `F8:F47`. */
  readonly rangeOf: (key: string) => string;
  /** The same with dollar signs, for a formula that must not move: `$F$8:$F$47`. */
  readonly fixedRangeOf: (key: string) => string;
  /** The letters of a column: `F`. */
  readonly lettersOf: (key: string) => string;
  readonly lastColumn: string;
  readonly lastRow: number;
}

/** Where the columns of a table stand, for formulas that other sheets write before the table is laid out. */
export function tablePlaces(
  spec: TableSpec,
): Pick<TableBlock, "rangeOf" | "fixedRangeOf" | "lettersOf" | "lastColumn" | "lastRow"> {
  const first = spec.headerRow + 1;
  const lastRow = spec.headerRow + spec.rowCount;
  const letters = (key: string) => columnLetters(columnNumber(spec, key));
  return {
    rangeOf: (key) => `${letters(key)}${first}:${letters(key)}${lastRow}`,
    fixedRangeOf: (key) => `$${letters(key)}$${first}:$${letters(key)}$${lastRow}`,
    lettersOf: letters,
    lastColumn: columnLetters(spec.columns.length),
    lastRow,
  };
}

/** Spells a column's data cells as a formula on another sheet names them: `Outlets!$F$9:$F$48`. */
export function columnsOfOtherSheet(sheet: string, spec: TableSpec): (key: string) => string {
  const places = tablePlaces(spec);
  return (key) => `${quotedSheet(sheet)}!${places.fixedRangeOf(key)}`;
}

function columnNumber(spec: TableSpec, key: string): number {
  const index = spec.columns.findIndex((column) => column.key === key);
  if (index < 0) throw new Error(`The table ${spec.name} has no column ${key}.`);
  return index + 1;
}

/** Lays a table out: a row of units, the header, and rows that are ready to be filled. */
export function tableBlock(spec: TableSpec): TableBlock {
  const places = tablePlaces(spec);
  const inRow =
    (row: number): RowCell =>
    (key) =>
      `${columnLetters(columnNumber(spec, key))}${row}`;
  const firstRow = spec.headerRow + 1;
  const head = spec.columns.flatMap((column, index) => [
    cell(`${columnLetters(index + 1)}${spec.headerRow - 1}`, column.unit === "" ? null : column.unit, "unit"),
    cell(`${columnLetters(index + 1)}${spec.headerRow}`, column.header, "header"),
  ]);
  const rows = Array.from({ length: spec.rowCount }, (_, offset) => {
    const row = firstRow + offset;
    return spec.columns.map((column) =>
      cell(
        inRow(row)(column.key),
        column.kind === "input" ? null : column.formula(inRow(row)),
        column.style,
        column.format,
      ),
    );
  });
  return {
    ...places,
    cells: [...head, ...rows.flat()],
    table: {
      name: spec.name,
      range: `A${spec.headerRow}:${places.lastColumn}${places.lastRow}`,
      columns: spec.columns.map((column) => ({
        name: column.header,
        formula: column.kind === "input" ? null : column.formula(inRow(firstRow)),
      })),
    },
    validations: spec.columns.flatMap((column) =>
      column.kind === "input" ? [{ range: places.rangeOf(column.key), ...column.rule }] : [],
    ),
    columnWidths: spec.columns.map((column) => column.width),
  };
}
