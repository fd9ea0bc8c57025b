import { type CellRange, formatAddress } from "../address.js";
import { relativeForm } from "../formula/relative-form.js";
import { findCell, findRow } from "../read/cell-table.js";
import { cellAtPosition } from "../read/cells.js";
import type { Cell, Sheet, Table } from "../sheet.js";
import { changeTag } from "../xml/tag.js";
import { encodeXstring, escapeText } from "../xml/text.js";
import { formulaForNewRow, type SheetsBetween } from "./change-formula.js";
import type { RowChange } from "./row-change.js";
import type { OutdatedCell } from "./structure-context.js";

/** A cell of a new row: its style, and its formula where it has one. */
export interface NewCell {
  readonly column: number;
  readonly style: number;
  readonly formula: string | undefined;
  /** How the formula is stored: in one cell as an array formula, dynamic or not, or plainly. */
  readonly array: { readonly columns: number; readonly metadata: string | undefined } | undefined;
}

/** What new rows are made of. */
export interface NewRows {
  readonly cellsOf: (row: number) => readonly NewCell[];
  /** Spells a cell. */
  readonly cellXml: (row: number, cell: NewCell) => string;
  /** Blocks of one row that are merged in the rows around, to be merged in the new ones. */
  readonly merged: readonly CellRange[];
  readonly outdated: OutdatedCell[];
}

/** What a column of the model gives to new rows. */
interface Source {
  readonly column: number;
  readonly style: number;
  /** The formula and the row for which it is spelled, before the change. */
  readonly formula: { readonly text: string; readonly row: number } | undefined;
  readonly array: NewCell["array"];
}

function formOf(cell: Cell | undefined): string | undefined {
  if (cell?.formula === undefined || cell.formula.kind === "dataTable") return undefined;
  return (cell.formula.kind === "array" ? "{" : "") + relativeForm(cell.formula.text, cell.row, cell.column);
}

/** How a formula of the model is stored; "block" where it fills several rows. */
function arrayOf(cell: Cell, metadata: string | undefined): NewCell["array"] | "block" {
  const { formula } = cell;
  if (formula?.kind !== "array") return undefined;
  const { range } = formula;
  if (range !== undefined && range.lastRow > range.firstRow) return "block";
  const columns = range === undefined ? 1 : range.lastColumn - range.firstColumn + 1;
  return { columns, metadata: formula.isDynamic ? metadata : undefined };
}

/**
 * Makes the rows that are to be like a model: its styles, and the formulas that it shares with the rows around it or with
 * its column of a table, never what was typed into it.
 *
 * @param sheet - The sheet before the change
 * @param change - The change; without a model there is nothing to make
 * @param table - The table that gets the rows
 * @param metadataOf - The number by which a stored cell says that it holds a dynamic array
 */
export function newRows(
  sheet: Sheet,
  change: RowChange,
  between: SheetsBetween,
  table: Table | undefined,
  metadataOf: (cellIndex: number) => string | undefined,
): NewRows {
  const { model, at, added, list } = change;
  const outdated: OutdatedCell[] = [];
  const { prefix } = sheet.layout;
  const sources = model === undefined ? [] : sourcesOf(sheet, model, neighborsOf(change), table, change, metadataOf);

  function cellXml(row: number, { column, style, formula, array }: NewCell): string {
    const address = formatAddress(row, column);
    const styled = style > 0 ? ` s="${style}"` : "";
    if (formula === undefined) return `<${prefix}c r="${address}"${styled}/>`;
    outdated.push({ sheet: sheet.name, row, column });
    const text = escapeText(encodeXstring(formula));
    if (array === undefined) return `<${prefix}c r="${address}"${styled}><${prefix}f>${text}</${prefix}f></${prefix}c>`;
    const last = formatAddress(row, column + array.columns - 1);
    const ref = array.columns === 1 ? address : `${address}:${last}`;
    const cm = array.metadata === undefined ? "" : ` cm="${array.metadata}"`;
    const tag = `<${prefix}f t="array" ref="${ref}">`;
    return `<${prefix}c r="${address}"${styled}${cm}>${tag}${text}</${prefix}f></${prefix}c>`;
  }

  const isInside = (range: CellRange, row: number) => range.firstRow === row && range.lastRow === row;
  const isMergedAround = (range: CellRange): boolean => {
    if (model === undefined || !isInside(range, model) || range.firstColumn === range.lastColumn) return false;
    return sheet.mergedRanges.some(
      (other) =>
        neighborsOf(change).some((row) => isInside(other, row)) &&
        other.firstColumn === range.firstColumn &&
        other.lastColumn === range.lastColumn,
    );
  };
  const rows = Array.from({ length: list === undefined || change.inserted > 0 ? added : 0 }, (_, index) => at + index);
  return {
    outdated,
    cellXml,
    merged: sheet.mergedRanges
      .filter(isMergedAround)
      .flatMap((range) => rows.map((row) => ({ ...range, firstRow: row, lastRow: row }))),
    cellsOf: (row) =>
      sources.map(({ column, style, formula, array }) => {
        const place = { sheet: sheet.name, row: formula?.row ?? row };
        const text = formula && formulaForNewRow(formula.text, place, row, change, between);
        return { column, style, formula: text, array };
      }),
  };
}

/** The rows beside the model with which it must share a formula for the formula to be one of the list. */
function neighborsOf({ model, at, list }: RowChange): readonly number[] {
  if (model === undefined) return [];
  const rows = model < at ? [model - 1, model + 1] : [model + 1];
  return list === undefined ? rows : rows.filter((row) => row >= list.first && row <= list.last);
}

function sourcesOf(
  sheet: Sheet,
  model: number,
  neighbors: readonly number[],
  table: Table | undefined,
  { list }: RowChange,
  metadataOf: (cellIndex: number) => string | undefined,
): readonly Source[] {
  const { cells } = sheet;
  const rowIndex = findRow(cells, model);
  const columns = new Set<number>();
  if (rowIndex >= 0) {
    const end = cells.rowFirstCells[rowIndex + 1] as number;
    for (let at = cells.rowFirstCells[rowIndex] as number; at < end; at += 1) columns.add(cells.columns[at] as number);
  }
  const calculated = new Map<number, string>();
  table?.columns.forEach(({ calculatedFormula }, index) => {
    if (calculatedFormula === undefined || calculatedFormula === "") return;
    calculated.set(table.range.firstColumn + index, calculatedFormula);
    columns.add(table.range.firstColumn + index);
  });
  const isAlone = list !== undefined && list.first === list.last;
  return [...columns]
    .sort((one, other) => one - other)
    .map((column): Source => {
      const cell = cellAtPosition(sheet, model, column);
      const style = cell?.style ?? 0;
      const cellIndex = rowIndex < 0 ? -1 : findCell(cells, rowIndex, column);
      const array = cell === undefined ? undefined : arrayOf(cell, cellIndex < 0 ? undefined : metadataOf(cellIndex));
      const ofColumn = calculated.get(column);
      const form = formOf(cell);
      if (ofColumn !== undefined && list !== undefined) {
        const isLikeColumn = form?.replace(/^\{/, "") === relativeForm(ofColumn, list.first, column);
        const kept = isLikeColumn && array !== "block" ? array : undefined;
        return { column, style, formula: { text: ofColumn, row: list.first }, array: kept };
      }
      const isInList = list !== undefined && column >= list.firstColumn && column <= list.lastColumn;
      const isShared = neighbors.some((row) => form === formOf(cellAtPosition(sheet, row, column)));
      const isCopied = form !== undefined && array !== "block" && (isShared || (isInList && isAlone));
      if (!isCopied || cell?.formula === undefined) return { column, style, formula: undefined, array: undefined };
      return { column, style, formula: { text: cell.formula.text, row: model }, array };
    });
}

/** The tag of a new row: as high and as styled as its model, in view, and with no marks of its own place. */
export function newRowTag(modelTag: string | undefined, row: number, prefix: string): string {
  if (modelTag === undefined) return `<${prefix}row r="${row}">`;
  return changeTag(modelTag, { r: String(row), hidden: undefined, collapsed: undefined }, ">");
}
