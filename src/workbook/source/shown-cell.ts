import type { SheetSource, SourceValue } from "./workbook-source.js";

/** What a cell shows. A cell with nothing in it, or with an empty text, is blank. */
export type ShownCell =
  | { readonly kind: "blank" }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "text"; readonly value: string }
  | { readonly kind: "error"; readonly value: string }
  /** A formula whose result nobody stored: none at all, or #NAME? of a VANE call from a program without the functions. */
  | { readonly kind: "not calculated" };

const BLANK: ShownCell = { kind: "blank" };
const NOT_CALCULATED: ShownCell = { kind: "not calculated" };
/** Space that is trimmed or narrowed: few texts have any, and every cell is asked. */
const LOOSE_SPACE = /^\s|\s$|\s\s|[^\S ]/;
const CALLS_VANE = /VANE[._]/i;

function plain(value: Exclude<SourceValue, null>): ShownCell {
  if (typeof value === "number") return { kind: "number", value };
  if (typeof value === "boolean") return { kind: "text", value: value ? "TRUE" : "FALSE" };
  if (typeof value === "object") return { kind: "error", value: value.error };
  const text = LOOSE_SPACE.test(value) ? value.trim().replace(/\s+/g, " ") : value;
  return text === "" ? BLANK : { kind: "text", value: text };
}

/** Returns what a cell shows. */
export function shownCell(sheet: SheetSource, row: number, column: number): ShownCell {
  const value = sheet.valueAt(row, column);
  if (value === null) return sheet.hasFormula(row, column) ? NOT_CALCULATED : BLANK;
  if (typeof value === "object" && value.error === "#NAME?") {
    return CALLS_VANE.test(sheet.formulaAt(row, column) ?? "") ? NOT_CALCULATED : plain(value);
  }
  return plain(value);
}

/** Returns a cell as a word or a name; a number as its digits, anything else as "". */
export function shownText(cell: ShownCell): string {
  return cell.kind === "text" || cell.kind === "number" ? String(cell.value) : "";
}
