import { formatAddress } from "../../xlsx/index.js";
import { type ShownCell, shownText } from "../source/index.js";
import { LIST_COLUMNS, type ListColumnKey } from "./columns.js";
import type { ListIssue, ListIssueCode, ListIssueCost } from "./list-issue.js";
import { rowCell } from "./list-rows.js";
import type { OutletList } from "./outlet-list.js";

/** One row of a list, and what was found wrong with it so far. */
export interface RowReader {
  readonly list: OutletList;
  readonly row: number;
  readonly issues: ListIssue[];
}

/** What a figure of a row may be. */
export interface NumberRange {
  readonly least: number;
  readonly most: number;
}

const LONGEST_QUOTE = 40;

/** A text from a workbook, short enough for a message. */
export function quoted(text: string): string {
  return text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
}

export function textOf({ list, row }: RowReader, key: ListColumnKey): string {
  return shownText(rowCell(list, row, key));
}

/** The heading of a column as the sheet spells it. */
export function spelledHeading({ source, headerRow, columns }: OutletList, key: ListColumnKey): string {
  const column = columns.get(key);
  const text = column === undefined ? null : source.valueAt(headerRow, column);
  return typeof text === "string" && text.trim() !== "" ? text.trim() : LIST_COLUMNS[key].headings[0];
}

/** Notes what is wrong with a cell of the row. */
export function addIssue(
  { list, row, issues }: RowReader,
  code: ListIssueCode,
  leftOut: Exclude<ListIssueCost, "list">,
  key: ListColumnKey | number,
  message: string,
): void {
  const column = typeof key === "number" ? key : (list.columns.get(key) ?? list.columns.get("outlet") ?? 1);
  issues.push({ code, leftOut, sheet: list.sheet, place: formatAddress(row, column), message });
}

/** A text that is a number but for being text: digits that a person typed after an apostrophe. */
const isNumberAsText = (text: string) => /^[+-]?\d[\d, ]*(?:\.\d+)?$/.test(text);

function notANumber(heading: string, text: string): string {
  return isNumberAsText(text)
    ? `${heading}: ${text} is stored as text. Enter it as a number.`
    : `${heading}: “${quoted(text)}” is not a number. Enter only a number, or clear the cell.`;
}

/**
 * Takes a number from a cell that may be empty; what is no number is an issue and null, never a zero.
 *
 * @param cost - What it costs the outlet when the cell holds something else
 */
export function takeNumber(
  reader: RowReader,
  key: ListColumnKey,
  cell: ShownCell,
  { least, most }: NumberRange,
  cost: Exclude<ListIssueCost, "list">,
): number | null {
  if (cell.kind === "blank") return null;
  const heading = spelledHeading(reader.list, key);
  switch (cell.kind) {
    case "number":
      if (cell.value >= least && cell.value <= most) return cell.value;
      addIssue(reader, "out-of-range", cost, key, `${heading} is ${cell.value}, which cannot be right. Check it.`);
      return null;
    case "text":
      addIssue(reader, "not-a-number", cost, key, notANumber(heading, cell.value));
      return null;
    case "error":
      addIssue(reader, "error-value", cost, key, `${heading} shows ${cell.value}. Mend what it is calculated from.`);
      return null;
    case "not calculated": {
      const message = `${heading} is a formula without a stored result. Open the workbook with Vanesheet, let it calculate, and save it.`;
      addIssue(reader, "not-calculated", cost, key, message);
      return null;
    }
  }
}

/** Takes a number from a column of the row. */
export function numberOf(
  reader: RowReader,
  key: ListColumnKey,
  range: NumberRange,
  cost: Exclude<ListIssueCost, "list">,
): number | null {
  return takeNumber(reader, key, rowCell(reader.list, reader.row, key), range, cost);
}
