import { type CellRange, parseRange } from "../address.js";
import type { FilterChoices, Sheet, Table } from "../sheet.js";
import type { DefinedName } from "../workbook.js";
import type { XmlHandler } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";
import { findRow } from "./cell-table.js";
import { isTrue } from "./workbook-part.js";

/** Whether a row is in view, and what hides it: a person, or a filter. */
export type RowState = "shown" | "hidden" | "filtered";

/** Hears an element autoFilter and what is in it, in a sheet's part or a table's. */
export interface FilterReader extends Required<Pick<XmlHandler, "open">> {
  /** The rows among which the filter chooses; undefined while it chooses none. */
  filteredRange(): CellRange | undefined;
  /** What it chooses, by its columns. */
  choices(): FilterChoices;
}

/**
 * Makes a reader for one autoFilter. Its buttons alone choose no rows: a column with a criterion does.
 *
 * @source ECMA-376-1:2016, sections 18.3.1.2 (autoFilter) and 18.3.2.7 (filterColumn)
 */
export function makeFilterReader(): FilterReader {
  let range: CellRange | undefined;
  let column: number | undefined;
  let isList = false;
  const choices = new Map<number, string[] | null>();
  return {
    open(name, attributes, depth) {
      if (depth === 2) range = parseRange(attributes["ref"] ?? "");
      else if (depth === 3) column = name === "filterColumn" ? Number(attributes["colId"]) : undefined;
      else if (column === undefined) return;
      else if (depth === 4) {
        isList = name === "filters";
        const blank = isTrue(attributes["blank"]) ? [""] : [];
        if (name !== "extLst") choices.set(column, isList ? blank : null);
      } else if (depth === 5 && isList) {
        const value = name === "filter" ? attributes["val"] : undefined;
        if (value === undefined) choices.set(column, null);
        else choices.get(column)?.push(decodeXstring(value));
      }
    },
    filteredRange: () => (choices.size > 0 ? withoutHeadings(range) : undefined),
    choices: () => choices,
  };
}

/** The first row of a filter's block holds the headings, which it never hides. */
function withoutHeadings(range: CellRange | undefined): CellRange | undefined {
  return range && { ...range, firstRow: range.firstRow + 1 };
}

/** What a sheet's part says of its filter. */
export interface SheetFilter {
  readonly filteredRange: CellRange | undefined;
  /** Whether any filter is at work on the sheet. */
  readonly isInFilterMode: boolean;
}

/**
 * Returns the blocks of a sheet in which a filter chooses rows: the sheet's own, its tables', or the list that an advanced
 * filter works on in place, which no element autoFilter tells of: only the sheet's filterMode, and a hidden name.
 *
 * @source ECMA-376-1:2016, section 18.3.1.82 (sheetPr); the name _FilterDatabase from memory, unverified
 */
export function filteredRangesOf(
  sheetName: string,
  own: SheetFilter,
  tables: readonly Table[],
  names: readonly DefinedName[],
): readonly CellRange[] {
  const ranges = [own, ...tables].map(({ filteredRange }) => filteredRange).filter((range) => range !== undefined);
  if (ranges.length > 0 || !own.isInFilterMode) return ranges;
  const list = names.find(({ name, sheet }) => name === "_xlnm._FilterDatabase" && sheet === sheetName)?.refersTo ?? "";
  const filtered = withoutHeadings(parseRange(list.slice(list.lastIndexOf("!") + 1).replaceAll("$", "")));
  return filtered === undefined ? [] : [filtered];
}

/**
 * Tells whether a row is in view, and what hides it.
 *
 * A file says only that a row is hidden. In a block in which a filter chooses rows, it is taken that the filter hides it,
 * even where a person did so before or since: a file cannot tell, nor can Excel, which then leaves such a row out of
 * SUBTOTAL(9) too (published observations of Excel, not tried here). Everywhere else a person hid it, by hand or by folding
 * a group. A filter's criteria are not looked at: like Excel, which applies them when it is told to and not whenever a
 * value changes, we go by the rows as they were left.
 *
 * @param row - Counted from 1
 */
export function rowStateAt({ cells, filteredRanges }: Pick<Sheet, "cells" | "filteredRanges">, row: number): RowState {
  const index = findRow(cells, row);
  if (index < 0 || cells.rowsHidden[index] !== 1) return "shown";
  const isFiltered = filteredRanges.some(({ firstRow, lastRow }) => row >= firstRow && row <= lastRow);
  return isFiltered ? "filtered" : "hidden";
}
