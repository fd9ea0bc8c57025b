import { cellAtPosition, formatAddress } from "../../xlsx/index.js";
import type { OutletBlock } from "./find-outlets.js";
import type { RollUpIssue, RollUpIssueCode } from "./issue.js";
import type { OutletKey } from "./outlet-columns.js";
import { type CalculatedResults, type ShownCell, shownCell, shownText } from "./sheet-reader.js";

/** A finding whose file the caller knows. */
export type Finding = Omit<RollUpIssue, "file">;

/** What a finding about one cell costs: its outlet's place in the sums, or nothing. */
export type Cost = "outlet" | "note";

/** One row of outlets, and what was found wrong with it so far. */
export interface RowReader {
  readonly block: OutletBlock;
  readonly row: number;
  readonly calculated: CalculatedResults;
  readonly findings: Finding[];
}

interface NumberRange {
  readonly least: number;
  readonly most: number;
}

const LONGEST_QUOTE = 40;
const BLANK: ShownCell = { kind: "blank" };

/** What the row's cell in a column shows; blank where the sheet has no such column. */
export function rowCell({ block, row, calculated }: RowReader, key: OutletKey): ShownCell {
  const column = block.columns.get(key);
  return column === undefined ? BLANK : shownCell(block.sheet, row, column, calculated);
}

export function rowText(reader: RowReader, key: OutletKey): string {
  return shownText(rowCell(reader, key));
}

export function rowHasFormula({ block, row }: RowReader, key: OutletKey): boolean {
  const column = block.columns.get(key);
  return column !== undefined && cellAtPosition(block.sheet, row, column)?.formula !== undefined;
}

/** Notes what is wrong with a cell of the row. */
export function addFinding(
  { block, row, findings }: RowReader,
  code: RollUpIssueCode,
  leftOut: Cost,
  key: OutletKey,
  message: string,
): void {
  const column = block.columns.get(key) ?? block.columns.get("outlet") ?? 1;
  findings.push({ code, leftOut, place: `${block.sheet.name}!${formatAddress(row, column)}`, message });
}

/** Reads a number that may be missing; what is no number is a finding and null, never a zero. */
export function rowNumber(reader: RowReader, key: OutletKey, { least, most }: NumberRange, cost: Cost): number | null {
  const found = rowCell(reader, key);
  if (found.kind === "blank") return null;
  if (found.kind === "number" && found.value >= least && found.value <= most) return found.value;
  const header = reader.block.source.headers.get(key) ?? key;
  switch (found.kind) {
    case "number":
      addFinding(reader, "out-of-range", cost, key, `${header} is ${found.value}, which cannot be right. Check it.`);
      return null;
    case "text": {
      const message = `${header} says “${quoted(found.value)}”, which is no number. Enter the number alone, or empty the cell.`;
      addFinding(reader, "not-a-number", cost, key, message);
      return null;
    }
    case "error":
      addFinding(reader, "error-value", cost, key, `${header} shows ${found.value}. Mend what it is calculated from.`);
      return null;
    case "not calculated": {
      const message = `${header} is a formula without a stored result. Open the workbook, let it calculate, and save it.`;
      addFinding(reader, "not-calculated", cost, key, message);
      return null;
    }
  }
}

/** A text from a file, short enough for a message. */
export function quoted(text: string): string {
  return text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
}
