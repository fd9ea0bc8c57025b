import { WORKBOOK_LIMITS } from "../limits.js";
import type { CellValue } from "../sheet.js";
import { encodeXstring, escapeXml } from "../xml/text.js";

/** A cell's type, undefined for a number or a blank, and the elements that hold its value. */
export interface ValueXml {
  readonly type: string | undefined;
  readonly content: string;
}

/**
 * Errors that a file can spell; newer ones are stored as #VALUE!, as the spreadsheet program itself does.
 *
 * @source ECMA-376-1:2016, section 18.18.11 (ST_CellType) with 18.17.3 (error values)
 */
const FILE_ERRORS: ReadonlySet<string> = new Set([
  "#NULL!",
  "#DIV/0!",
  "#VALUE!",
  "#REF!",
  "#NAME?",
  "#NUM!",
  "#N/A",
  "#GETTING_DATA",
]);

/** Says why a value cannot be stored, or returns undefined when it can. */
export function valueProblem(value: CellValue): string | undefined {
  if (typeof value === "number" && !Number.isFinite(value)) return "cannot hold a number that is not finite";
  if (typeof value !== "string") return undefined;
  if (value.length > WORKBOOK_LIMITS.textLength)
    return `cannot hold more than ${WORKBOOK_LIMITS.textLength} characters`;
  return hasLoneSurrogate(value) ? "cannot hold half a character" : undefined;
}

/** Whether a text holds one half of a character of two code units. */
export function hasLoneSurrogate(text: string): boolean {
  return /[\ud800-\udfff]/u.test(text);
}

/**
 * Spells a value for a cell.
 *
 * @param value - A value that can be stored
 * @param prefix - Prefix of the part's elements
 * @param isResult - Whether a formula gave it: then text stands in the value element, else it is an inline string
 */
export function valueXml(value: CellValue, prefix: string, isResult: boolean): ValueXml {
  if (value === null) return { type: undefined, content: "" };
  const v = (text: string, attributes = ""): string => `<${prefix}v${attributes}>${text}</${prefix}v>`;
  if (typeof value === "number") return { type: undefined, content: v(String(value === 0 ? 0 : value)) };
  if (typeof value === "boolean") return { type: "b", content: v(value ? "1" : "0") };
  if (typeof value === "object")
    return { type: "e", content: v(FILE_ERRORS.has(value.error) ? value.error : "#VALUE!") };
  const text = escapeXml(encodeXstring(value));
  const space = /^\s|\s$|\n/.test(value) ? ' xml:space="preserve"' : "";
  if (isResult) return { type: "str", content: v(text, space) };
  return { type: "inlineStr", content: `<${prefix}is><${prefix}t${space}>${text}</${prefix}t></${prefix}is>` };
}
