import { cellAtPosition, formatAddress } from "../xlsx/index.js";
import type { OutletBlock } from "./find-outlets.js";
import type { RollUpIssue, RollUpIssueCode } from "./issue.js";
import type { OutletKey } from "./outlet-columns.js";
import { type CalculatedResults, type ShownCell, shownCell, shownText } from "./sheet-reader.js";

/** A finding whose file the caller knows. */
export type Finding = Omit<RollUpIssue, "file">;

/** What a finding about one cell costs: its outlet's place in the sums, or nothing. */
export type Cost = "outlet" | "note";

/** Reads the cells of one row and collects what is wrong with them. */
export interface RowReader {
  readonly cell: (key: OutletKey) => ShownCell;
  readonly text: (key: OutletKey) => string;
  /** Reads a number that may be missing; what is no number is a finding and null, never a zero. */
  readonly number: (key: OutletKey, range: NumberRange, cost: Cost) => number | null;
  readonly hasFormula: (key: OutletKey) => boolean;
  readonly find: (code: RollUpIssueCode, cost: Cost, key: OutletKey, message: string) => void;
  readonly findings: readonly Finding[];
}

interface NumberRange {
  readonly least: number;
  readonly most: number;
}

const LONGEST_QUOTE = 40;

/** Makes the reader of one row. */
export function makeRowReader(block: OutletBlock, row: number, calculated: CalculatedResults): RowReader {
  const { sheet, columns, source } = block;
  const findings: Finding[] = [];
  const cell = (key: OutletKey): ShownCell => {
    const column = columns.get(key);
    return column === undefined ? { kind: "blank" } : shownCell(sheet, row, column, calculated);
  };
  const find: RowReader["find"] = (code, leftOut, key, message) => {
    const column = columns.get(key) ?? columns.get("outlet") ?? 1;
    findings.push({ code, leftOut, place: `${sheet.name}!${formatAddress(row, column)}`, message });
  };
  return {
    cell,
    text: (key) => shownText(cell(key)),
    hasFormula(key) {
      const column = columns.get(key);
      return column !== undefined && cellAtPosition(sheet, row, column)?.formula !== undefined;
    },
    number(key, { least, most }, cost) {
      const found = cell(key);
      const header = source.headers.get(key) ?? key;
      switch (found.kind) {
        case "blank":
          return null;
        case "number":
          if (found.value >= least && found.value <= most) return found.value;
          find("out-of-range", cost, key, `${header} is ${found.value}, which cannot be right. Check it.`);
          return null;
        case "text": {
          const message = `${header} says “${quoted(found.value)}”, which is no number. Enter the number alone, or empty the cell.`;
          find("not-a-number", cost, key, message);
          return null;
        }
        case "error":
          find("error-value", cost, key, `${header} shows ${found.value}. Mend what it is calculated from.`);
          return null;
        case "not calculated": {
          const message = `${header} is a formula without a stored result. Open the workbook, let it calculate, and save it.`;
          find("not-calculated", cost, key, message);
          return null;
        }
      }
    },
    find,
    findings,
  };
}

/** A text from a file, short enough for a message. */
export function quoted(text: string): string {
  return text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
}
