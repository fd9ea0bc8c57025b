import { formatAddress } from "../../xlsx/index.js";
import { type Finding, type FindingKind, findingAt, type LeftOut } from "../finding.js";
import { type ShownCell, shownText } from "../source/index.js";
import { LIST_COLUMNS, type ListColumnKey } from "./columns.js";
import { rowCell } from "./list-rows.js";
import type { OutletList } from "./outlet-list.js";

/** One row of a list, and what was found wrong with it so far. */
export interface RowReader {
  readonly list: OutletList;
  readonly row: number;
  readonly findings: Finding[];
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
export function addFinding(
  { list, row, findings }: RowReader,
  kind: FindingKind,
  leftOut: LeftOut,
  key: ListColumnKey | number,
  problem: string,
  action: string,
): void {
  const column = typeof key === "number" ? key : (list.columns.get(key) ?? list.columns.get("outlet") ?? 1);
  findings.push(findingAt([list.sheet, formatAddress(row, column)], kind, leftOut, problem, action));
}

/** What to do about an error value in a cell. */
export const MEND_SOURCE = "Mend what it is calculated from.";

/** A text that is a number but for being text: digits that a person typed after an apostrophe. */
const isNumberAsText = (text: string) => /^[+-]?\d[\d, ]*(?:\.\d+)?$/.test(text);

function notANumber(heading: string, text: string): readonly [problem: string, action: string] {
  return isNumberAsText(text)
    ? [`${heading}: ${text} is stored as text.`, "Enter it as a number."]
    : [`${heading}: “${quoted(text)}” is not a number.`, "Enter only a number, or clear the cell."];
}

/**
 * Takes a number from a cell that may be empty; what is no number is a finding and null, never a zero.
 *
 * @param leftOut - What no longer counts when the cell holds something else
 */
export function takeNumber(
  reader: RowReader,
  key: ListColumnKey,
  cell: ShownCell,
  { least, most }: NumberRange,
  leftOut: LeftOut,
): number | null {
  if (cell.kind === "blank") return null;
  if (cell.kind === "number" && cell.value >= least && cell.value <= most) return cell.value;
  const heading = spelledHeading(reader.list, key);
  switch (cell.kind) {
    case "number":
      addFinding(
        reader,
        "out-of-range",
        leftOut,
        key,
        `${heading} is ${cell.value}, which cannot be right.`,
        "Check it.",
      );
      return null;
    case "text":
      addFinding(reader, "not-a-number", leftOut, key, ...notANumber(heading, cell.value));
      return null;
    case "error":
      addFinding(reader, "error-value", leftOut, key, `${heading} shows ${cell.value}.`, MEND_SOURCE);
      return null;
    case "not calculated": {
      const problem = `${heading} is a formula without a stored result.`;
      const action = "Open the workbook with Vanesheet, let it calculate, and save it.";
      addFinding(reader, "not-calculated", leftOut, key, problem, action);
      return null;
    }
  }
}

/** Takes a number from a column of the row. */
export function numberOf(reader: RowReader, key: ListColumnKey, range: NumberRange, leftOut: LeftOut): number | null {
  return takeNumber(reader, key, rowCell(reader.list, reader.row, key), range, leftOut);
}
