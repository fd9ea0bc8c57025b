import { PLAUSIBLE } from "../../../shared/tables/plausible-ranges.js";
import { SizeProblem, type WrittenSize, writtenLength, writtenSize } from "../../cells/index.js";
import type { UnitSystemName } from "../../core/index.js";
import { shownText } from "../source/index.js";
import type { ListColumnKey } from "./columns.js";
import { rowCell } from "./list-rows.js";
import { addFinding, numberOf, quoted, type RowReader, spelledHeading } from "./row-reader.js";

/** The size of a row, in the base unit of its column. */
export interface RowSize {
  readonly width: number | null;
  /** Null for a round opening. */
  readonly height: number | null;
}

type SideKey = "width" | "height" | "diameter";

/** What to do about both sides in the cell of one. */
const SIDES_APART = "Enter width and height in two cells, each a number alone.";

const LENGTH = { least: 0, most: Number.MAX_VALUE };

const scaleOf = ({ list }: RowReader, key: ListColumnKey) => list.columnScales.get(list.columns.get(key) ?? 0) ?? 1;

/** A text in the cell of one side, or undefined where the cell holds anything else. */
function textIn({ list, row }: RowReader, key: ListColumnKey): string | undefined {
  const cell = rowCell(list, row, key);
  return cell.kind === "text" ? cell.value : undefined;
}

/** What a cell function reads of the same cell: a number, or a text as it is written on a grille. */
function readSide(reader: RowReader, key: SideKey, units: UnitSystemName): number | null {
  const text = textIn(reader, key);
  if (text !== undefined) return readText(reader, key, text, units);
  const length = numberOf(reader, key, LENGTH, "nothing");
  if (length !== null && length > PLAUSIBLE.length.most) {
    tellDate(reader, key, length);
    return null;
  }
  return length === 0 ? null : length;
}

function readText(reader: RowReader, key: SideKey, text: string, units: UnitSystemName): number | null {
  const problem = `${spelledHeading(reader.list, key)} says “${quoted(text)}”.`;
  if (writtenSize(text, units) !== undefined) {
    addFinding(reader, "not-a-number", "nothing", key, problem, SIDES_APART);
    return null;
  }
  try {
    // A length with its unit says what it is; one without is in the unit of the column.
    const scale = /[a-z"'″”′’]/i.test(text) ? 1 : scaleOf(reader, key);
    return scale * writtenLength(text, units);
  } catch (cause) {
    if (!(cause instanceof SizeProblem)) throw cause;
    addFinding(reader, "not-a-number", "nothing", key, problem, cause.message);
    return null;
  }
}

/** A spreadsheet program turns 6/8 into the eighth of June. */
function tellDate(reader: RowReader, key: ListColumnKey, value: number): void {
  const problem = `${spelledHeading(reader.list, key)} is ${value}: a date, as typing 6/8 becomes.`;
  const action = "Enter the number alone, 0.75 for 3/4, or both sides as 6x8 where one cell holds both.";
  addFinding(reader, "out-of-range", "nothing", key, problem, action);
}

/** The size of a row: its width and height, its diameter, or both in one cell. */
export function readSize(reader: RowReader, system: UnitSystemName | null): RowSize {
  const units = system ?? "ip";
  const both = textIn(reader, "width");
  const isHeightBlank = rowCell(reader.list, reader.row, "height").kind === "blank";
  const inOne = both !== undefined && isHeightBlank ? writtenSize(both, units, scaleOf(reader, "width")) : undefined;
  if (inOne !== undefined) return inOne;
  const width = readSide(reader, "width", units);
  const height = readSide(reader, "height", units);
  if (width !== null) return { width, height };
  const diameter = readSide(reader, "diameter", units);
  if (diameter !== null) return { width: diameter, height: null };
  return readOneCell(reader, units) ?? { width: null, height };
}

function readOneCell(reader: RowReader, units: UnitSystemName): WrittenSize | undefined {
  const cell = rowCell(reader.list, reader.row, "size");
  if (cell.kind === "blank" || cell.kind === "not calculated") return undefined;
  const size = cell.kind === "text" ? writtenSize(cell.value, units, scaleOf(reader, "size")) : undefined;
  if (size !== undefined) return size;
  if (cell.kind === "number" && cell.value > PLAUSIBLE.length.most) {
    tellDate(reader, "size", cell.value);
    return undefined;
  }
  const shown = cell.kind === "error" ? cell.value : quoted(shownText(cell));
  const problem = `${spelledHeading(reader.list, "size")} says “${shown}”.`;
  const action = "Write both sides, such as 14x6, or a diameter, such as 12 round.";
  addFinding(reader, "not-a-number", "nothing", "size", problem, action);
  return undefined;
}
