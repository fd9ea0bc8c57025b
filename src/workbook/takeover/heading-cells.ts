import { MAPPED_UNITS, type MappedUnitName } from "../lists/index.js";
import type { SheetSource } from "../source/index.js";
import { isKnownHeading, type OwnHeading, readOwnHeading, unitSpelled } from "./read-own-heading.js";

/** Rows that may lie above one another as the headings of one list. */
export const MOST_HEADING_ROWS = 3;

/** The heading of a column, one or more rows of it. */
export interface ColumnHeading {
  readonly column: number;
  /** As it stands, the upper rows first: `Readings › 1`. */
  readonly shown: string;
  /** Undefined where no word of it is known. */
  readonly read: OwnHeading | undefined;
}

const LARGEST_HEADING_NUMBER = 60;

function headingText(source: SheetSource, row: number, column: number): string {
  if (row < 1 || source.hasFormula(row, column)) return "";
  const value = source.valueAt(row, column);
  if (typeof value === "string") return value.replace(/\s+/g, " ").trim();
  const isNumber =
    typeof value === "number" && Number.isInteger(value) && value >= 1 && value <= LARGEST_HEADING_NUMBER;
  return isNumber ? String(value) : "";
}

/** A heading that spans several columns stands in the first of them alone. */
function upperText(source: SheetSource, row: number, column: number, lower: number, firstColumn: number): string {
  for (let at = column; at >= firstColumn; at -= 1) {
    const text = headingText(source, row, at);
    if (text !== "") return text;
    if (at < column && headingText(source, lower, at) === "") return "";
  }
  return "";
}

const measuresOf = (unit: MappedUnitName | null) => (unit === null ? undefined : MAPPED_UNITS[unit].measures);

/** Joins what a heading says with what stands above it. */
function joined(lower: OwnHeading | undefined, upper: OwnHeading | undefined): OwnHeading | undefined {
  if (upper === undefined || lower === undefined) return lower ?? undefined;
  const isOpen = ["airflow", "reading", "percent", "verdict", "average", null].includes(lower.meaning);
  if (!isOpen) return lower;
  const byUnit = lower.unit !== null && lower.meaning !== null;
  // "1" below "Readings", "Before" below "Airflow", "CFM" below "Design".
  const meaning = lower.meaning ?? upper.meaning;
  const takesMeaning = upper.meaning !== null && (lower.meaning === null || (byUnit && upper.meaning === "average"));
  const isUsed = takesMeaning || (lower.state === null && upper.state !== null);
  const unit = lower.unit ?? (measuresOf(upper.unit) === "percent" && meaning !== "percent" ? null : upper.unit);
  return {
    meaning: takesMeaning ? upper.meaning : meaning,
    state: lower.state ?? upper.state,
    unit,
    number: lower.number ?? upper.number,
    isWhole: lower.isWhole && (!isUsed || upper.isWhole),
  };
}

/** The columns of a sheet among which headings belong together. */
export interface Side {
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** Rows of headings above the last one, and the first column of their list. */
export interface UpperRows {
  readonly rows: readonly number[];
  readonly firstColumn: number;
}

/** The rows above the last one that may hold headings as well: a title alone in its row is none. */
export function upperRows(source: SheetSource, row: number, { firstColumn, lastColumn }: Side): UpperRows {
  const rows: number[] = [];
  for (let upper = row - 1; upper >= 1 && upper > row - MOST_HEADING_ROWS; upper -= 1) {
    let texts = 0;
    for (let column = firstColumn; column <= lastColumn; column += 1) {
      if (headingText(source, upper, column) !== "") texts += 1;
    }
    if (texts < 2) break;
    rows.push(upper);
  }
  return { rows, firstColumn };
}

/** Reads the heading of a column whose rows of headings are given, the last and those above it. */
export function columnHeading(
  source: SheetSource,
  row: number,
  { rows, firstColumn }: UpperRows,
  column: number,
): ColumnHeading {
  const lower = headingText(source, row, column);
  if (lower === "") {
    const own = rows.map((upper) => headingText(source, upper, column)).find((text) => text !== "") ?? "";
    return { column, shown: own, read: own === "" ? undefined : readOwnHeading(own) };
  }
  const above =
    rows.map((upper) => upperText(source, upper, column, row, firstColumn)).find((text) => text !== "") ?? "";
  if (above !== "" && isKnownHeading(`${above} ${lower}`)) {
    return { column, shown: `${above} › ${lower}`, read: readOwnHeading(`${above} ${lower}`) };
  }
  const [read, over] = [readOwnHeading(lower), above === "" ? undefined : readOwnHeading(above)];
  const unit = unitSpelled(lower);
  if (over !== undefined && unit !== undefined && read?.meaning == null) {
    return { column, shown: `${above} › ${lower}`, read: { ...over, unit } };
  }
  const both = joined(read, over);
  const isJoined = both !== read || (read === undefined && over !== undefined);
  return { column, shown: isJoined && above !== "" ? `${above} › ${lower}` : lower, read: both };
}

/** Whether a cell of a row may be a heading. */
export function hasHeading(source: SheetSource, row: number, column: number): boolean {
  return headingText(source, row, column) !== "";
}
