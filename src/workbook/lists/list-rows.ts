import { columnLetters, isInRange } from "../../xlsx/address.js";
import { type ShownCell, shownCell, shownText } from "../source/index.js";
import type { ListColumnKey } from "./columns.js";
import type { OutletList } from "./outlet-list.js";
import { titleOver } from "./titles.js";
import { TOTAL_WORDS } from "./total-words.js";

/** What a filled row below the headings is. Rows in which nothing was entered are no rows of a list. */
export interface ListRow {
  readonly row: number;
  /** An outlet; a row that adds outlets up; or a text with nothing beside it, below the outlets. */
  readonly is: "outlet" | "total" | "remark";
  /** Whether the row lies below the spreadsheet program's own table, whose formulas and totals do not reach it. */
  readonly isBelowTable: boolean;
  /** Whether a reading was typed into it. */
  readonly hasReading: boolean;
  /** Whether all that it shows of airflows are totals over other rows: nothing of its own is left out with it. */
  readonly isSum: boolean;
  /** Its first text, for messages. */
  readonly text: string;
}

const BLANK: ShownCell = { kind: "blank" };

/** What a cell shows, a number in the base unit of its column: in, ft², cfm, fpm; mm, m², L/s, m/s. */
export function scaledCell({ source, columnScales }: OutletList, row: number, column: number): ShownCell {
  const cell = shownCell(source, row, column);
  const scale = columnScales.get(column);
  return scale === undefined || cell.kind !== "number" ? cell : { kind: "number", value: cell.value * scale };
}

const textCell = (value: string): ShownCell => (value === "" ? BLANK : { kind: "text", value });

/** What counts for every row of the list, or for those below a title. */
function statedCell(list: OutletList, row: number, key: ListColumnKey): ShownCell {
  const { stated } = list;
  if (key === "factor" && stated.factor !== undefined) return { kind: "number", value: stated.factor };
  if (key === "factor" && stated.factorCell !== undefined) {
    return shownCell(list.source, stated.factorCell.row, stated.factorCell.column);
  }
  if (key === "kind" && stated.kind !== undefined) return textCell(stated.kind);
  return key === "system" || key === "room" ? textCell(titleOver(list, row, key)) : BLANK;
}

/** Words that may be merged over several outlets and count for each. A figure merged over them belongs to none of them. */
const MAY_BE_MERGED: ReadonlySet<ListColumnKey> = new Set([
  ...(["system", "branch", "room", "kind", "make", "shape", "date", "technician", "jobId", "jobName"] as const),
]);

/** What a block of merged cells shows that a cell is part of. */
function mergedCell({ source }: OutletList, row: number, column: number): ShownCell {
  const merged = source.mergedRanges.find((range) => isInRange(range, row, column));
  return merged === undefined ? BLANK : shownCell(source, merged.firstRow, merged.firstColumn);
}

/** What a row shows in a column, or what is merged or stated for several rows; blank where the list says neither. */
export function rowCell(list: OutletList, row: number, key: ListColumnKey): ShownCell {
  const column = list.columns.get(key);
  const cell = column === undefined ? BLANK : scaledCell(list, row, column);
  if (cell.kind !== "blank") return cell;
  const merged = column === undefined || !MAY_BE_MERGED.has(key) ? BLANK : mergedCell(list, row, column);
  return merged.kind === "blank" ? statedCell(list, row, key) : merged;
}

/** The formula of a row in a column. */
export function rowFormula({ columns, source }: OutletList, row: number, key: ListColumnKey): string | undefined {
  const column = columns.get(key);
  return column === undefined ? undefined : source.formulaAt(row, column);
}

/** Whether a row has a formula in a column. */
export function hasRowFormula({ columns, source }: OutletList, row: number, key: ListColumnKey): boolean {
  const column = columns.get(key);
  return column !== undefined && source.hasFormula(row, column);
}

/** Columns whose figures make a row an outlet although it has no tag, as a design does. */
const AIRFLOWS: readonly ListColumnKey[] = ["airflow", "found", "left"];

const FIGURES: readonly ListColumnKey[] = ["design", ...AIRFLOWS];

const TEXTS: readonly ListColumnKey[] = ["system", "branch", "room", "kind"];

/** Whether something stands in a cell that a person entered, or that a formula brought from elsewhere. */
const isFilled = ({ kind }: ShownCell) => kind !== "blank" && kind !== "not calculated";

const ADDS_UP = /^(?:_xlfn\.)?(?:SUM|SUBTOTAL|AGGREGATE|AVERAGE)\(/i;

/** A total over several rows, not a sum within the row as of two sweeps. */
function addsRowsUp(formula: string | undefined): boolean {
  if (formula === undefined || !ADDS_UP.test(formula)) return false;
  const rows = [...formula.matchAll(/\$?[A-Z]{1,3}\$?(\d+)/gi)].map(([, row]) => row);
  return formula.includes("[") ? !formula.includes("@") && !/#This Row/i.test(formula) : new Set(rows).size > 1;
}

/** Whether an airflow adds up figures of its own column: a row so named, such as after a system, is no outlet. */
function addsOwnColumnUp(list: OutletList, row: number): boolean {
  return AIRFLOWS.some((key) => {
    const formula = rowFormula(list, row, key);
    if (formula === undefined || !addsRowsUp(formula)) return false;
    const letters = columnLetters(list.columns.get(key) ?? 0);
    const columns = [...formula.matchAll(/\$?\b([A-Z]{1,3})\$?\d+/gi)].map(([, column = ""]) => column.toUpperCase());
    return columns.every((column) => column === letters);
  });
}

function isSum(list: OutletList, row: number): boolean {
  const shown = FIGURES.filter((key) => rowCell(list, row, key).kind !== "blank");
  return shown.length > 0 && shown.every((key) => addsRowsUp(rowFormula(list, row, key)));
}

function hasReading(list: OutletList, row: number): boolean {
  return list.readings.some(({ columns }) => columns.some((column) => isFilled(shownCell(list.source, row, column))));
}

/** Whether something was typed, not calculated, into a cell for readings. */
function hasTypedReading(list: OutletList, row: number): boolean {
  const { source } = list;
  return list.readings.some(({ columns }) =>
    columns.some((column) => isFilled(shownCell(source, row, column)) && !source.hasFormula(row, column)),
  );
}

function isTotal(list: OutletList, row: number, tag: ShownCell, rowTexts: () => readonly string[]): boolean {
  const { table } = list;
  const lastOfTable = table?.range.lastRow ?? 0;
  if (table !== undefined && row <= lastOfTable && row > lastOfTable - table.totalsRows) return true;
  if (tag.kind === "text") return TOTAL_WORDS.test(tag.value) || addsOwnColumnUp(list, row);
  if (tag.kind === "number") return addsOwnColumnUp(list, row);
  return (
    rowTexts().some((text) => TOTAL_WORDS.test(text)) || FIGURES.some((key) => addsRowsUp(rowFormula(list, row, key)))
  );
}

/** The texts of a row before and under the headings that name an outlet. */
function textsOf(list: OutletList, row: number): readonly string[] {
  const { columns, source, firstColumn } = list;
  const named = TEXTS.flatMap((key) => columns.get(key) ?? []);
  const count = Math.max((columns.get("outlet") ?? firstColumn) - firstColumn, 0);
  const before = Array.from({ length: count }, (_, index) => firstColumn + index);
  return [...before, ...named].flatMap((column) => {
    const cell = shownCell(source, row, column);
    return cell.kind === "text" ? [cell.value] : [];
  });
}

const RESULTS: readonly ListColumnKey[] = ["airflow", "found", "left", "percent", "verdict"];

/** Whether the sheet has prepared the row: one of its results has a formula. */
function isPrepared(list: OutletList, row: number): boolean {
  return RESULTS.some((key) => hasRowFormula(list, row, key));
}

/** Whether a text has nothing beside it that would make an outlet of it. */
function isAlone(list: OutletList, row: number): boolean {
  return !isPrepared(list, row) && textsOf(list, row).length === 0;
}

/** A title between the outlets of somebody's own sheet, such as the name of a system: no size and no formula in its row. */
function isSection(list: OutletList, row: number): boolean {
  const sizes = ["width", "height", "size", "diameter", "area", "freeArea", "effectiveArea"] as const;
  return (
    list.foundBy === "mapping" && isAlone(list, row) && sizes.every((key) => rowCell(list, row, key).kind === "blank")
  );
}

/**
 * Goes through the filled rows of a list: to the last filled one, wherever the spreadsheet program's table ends.
 *
 * A row is filled when it names an outlet, holds a reading, or shows a design or an airflow.
 */
export function* rowsOf(list: OutletList): Generator<ListRow> {
  const { source, headerRow, lastRow, table } = list;
  const lastOfTable = table === undefined ? Number.MAX_SAFE_INTEGER : table.range.lastRow;
  let lastFilled = headerRow;
  for (const row of source.rowsFrom(headerRow + 1)) {
    if (row > lastRow) return;
    const tag = rowCell(list, row, "outlet");
    // A tag or a design that still waits for its formula is there; an airflow may wait for readings that nobody took.
    const hasTag = tag.kind !== "blank";
    const hasFigure =
      rowCell(list, row, "design").kind !== "blank" || AIRFLOWS.some((key) => isFilled(rowCell(list, row, key)));
    const isRead = hasReading(list, row);
    if (!hasTag && !hasFigure && !isRead) continue;
    const isBelowTable = row > lastOfTable;
    const isApart = table === undefined ? row > lastFilled + 1 : isBelowTable;
    const base = { row, isBelowTable, text: shownText(tag) };
    if (isTotal(list, row, tag, () => textsOf(list, row))) {
      const text = base.text || (textsOf(list, row)[0] ?? "");
      yield { ...base, text, is: "total", hasReading: hasTypedReading(list, row), isSum: isSum(list, row) };
    } else if (!hasFigure && !isRead && (isSection(list, row) || (isApart && isAlone(list, row)))) {
      yield { ...base, is: "remark", hasReading: false, isSum: false };
    } else {
      lastFilled = row;
      yield { ...base, is: "outlet", hasReading: isRead, isSum: false };
    }
  }
}
