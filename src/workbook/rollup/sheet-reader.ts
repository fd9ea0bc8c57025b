import { type CellValue, cellAtPosition, formatAddress, type Sheet, valueAt } from "../../xlsx/index.js";

/** Results that were calculated for formulas whose file stores none, by `Sheet!B7`. */
export type CalculatedResults = ReadonlyMap<string, CellValue>;

/** What a cell shows. A cell with nothing in it, or with an empty text, is blank. */
export type ShownCell =
  | { readonly kind: "blank" }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly value: string }
  | { readonly kind: "error"; readonly value: string }
  | { readonly kind: "not calculated" };

const BLANK: ShownCell = { kind: "blank" };

function shown(value: CellValue): ShownCell {
  if (typeof value === "number") return { kind: "number", value };
  if (typeof value === "boolean") return { kind: "text", value: value ? "TRUE" : "FALSE" };
  if (value === null) return BLANK;
  if (typeof value === "object") return { kind: "error", value: value.error };
  const text = value.trim().replace(/\s+/g, " ");
  return text === "" ? BLANK : { kind: "text", value: text };
}

/**
 * Returns what a cell shows: its stored value, or what was calculated for a formula that stores none.
 *
 * @param row - From 1
 * @param column - From 1
 */
export function shownCell(sheet: Sheet, row: number, column: number, calculated: CalculatedResults): ShownCell {
  if (calculated.size > 0) {
    const result = calculated.get(`${sheet.name}!${formatAddress(row, column)}`);
    if (result !== undefined) return shown(result);
  }
  const value = valueAt(sheet, row, column);
  if (value !== null) return shown(value);
  return cellAtPosition(sheet, row, column)?.formula === undefined ? BLANK : { kind: "not calculated" };
}

/** Returns a cell as a word or a name; a number as its digits, anything else as "". */
export function shownText(cell: ShownCell): string {
  return cell.kind === "text" || cell.kind === "number" ? String(cell.value) : "";
}
