import { type ShownCell, shownCell, shownText } from "../source/index.js";
import type { ListColumnKey } from "./columns.js";
import type { OutletList } from "./outlet-list.js";

/** What a filled row below the headings is. Rows in which nothing was entered are no rows of a list. */
export interface ListRow {
  readonly row: number;
  /** An outlet; a row that adds outlets up; or a text with nothing beside it, below the outlets. */
  readonly is: "outlet" | "total" | "remark";
  /** Whether the row lies below the spreadsheet program's own table, whose formulas and totals do not reach it. */
  readonly isBelowTable: boolean;
  /** Whether a reading was typed into it. */
  readonly hasReading: boolean;
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

/** What counts for every row of the list. */
function statedCell({ stated }: OutletList, key: ListColumnKey): ShownCell {
  if (key === "factor" && stated.factor !== undefined) return { kind: "number", value: stated.factor };
  if (key === "kind" && stated.kind !== undefined) return { kind: "text", value: stated.kind };
  return BLANK;
}

/** What a row shows in a column, or what is stated for every row; blank where the list says neither. */
export function rowCell(list: OutletList, row: number, key: ListColumnKey): ShownCell {
  const column = list.columns.get(key);
  const cell = column === undefined ? BLANK : scaledCell(list, row, column);
  return cell.kind === "blank" ? statedCell(list, key) : cell;
}

/** The formula of a row in a column. */
export function rowFormula({ columns, source }: OutletList, row: number, key: ListColumnKey): string | undefined {
  const column = columns.get(key);
  return column === undefined ? undefined : source.formulaAt(row, column);
}

/** Columns whose figures make a row an outlet although it has no tag, as a design does. */
const AIRFLOWS: readonly ListColumnKey[] = ["airflow", "found", "left"];

const FIGURES: readonly ListColumnKey[] = ["design", ...AIRFLOWS];

const TEXTS: readonly ListColumnKey[] = ["system", "branch", "room", "kind"];

/** Whether something stands in a cell that a person entered, or that a formula brought from elsewhere. */
const isFilled = ({ kind }: ShownCell) => kind !== "blank" && kind !== "not calculated";

/** Words for a row of totals. */
const TOTAL = /\b(?:sub[ -]?|grand )?totals?\b|^sums?\b|^averages?\b|^means?\b|^Σ/i;

const ADDS_UP = /^(?:_xlfn\.)?(?:SUM|SUBTOTAL|AGGREGATE|AVERAGE)\(/i;

/** A total over several rows, not a sum within the row as of two sweeps. */
function addsRowsUp(formula: string | undefined): boolean {
  if (formula === undefined || !ADDS_UP.test(formula)) return false;
  const rows = [...formula.matchAll(/\$?[A-Z]{1,3}\$?(\d+)/gi)].map(([, row]) => row);
  return formula.includes("[") ? !formula.includes("@") && !/#This Row/i.test(formula) : new Set(rows).size > 1;
}

function hasReading(list: OutletList, row: number): boolean {
  return list.readings.some(({ columns }) => columns.some((column) => isFilled(shownCell(list.source, row, column))));
}

/** Whether something was typed, not calculated, into a cell for readings. */
function hasTypedReading(list: OutletList, row: number): boolean {
  const { source } = list;
  return list.readings.some(({ columns }) =>
    columns.some((column) => isFilled(shownCell(source, row, column)) && source.formulaAt(row, column) === undefined),
  );
}

function isTotal(list: OutletList, row: number, tag: ShownCell, rowTexts: () => readonly string[]): boolean {
  const { table } = list;
  const lastOfTable = table?.range.lastRow ?? 0;
  if (table !== undefined && row <= lastOfTable && row > lastOfTable - table.totalsRows) return true;
  if (tag.kind === "text") return TOTAL.test(tag.value);
  if (tag.kind === "number") return false;
  return rowTexts().some((text) => TOTAL.test(text)) || FIGURES.some((key) => addsRowsUp(rowFormula(list, row, key)));
}

/** The texts of a row before and under the headings that name an outlet. */
function textsOf(list: OutletList, row: number): readonly string[] {
  const { columns, source } = list;
  const named = TEXTS.flatMap((key) => columns.get(key) ?? []);
  const before = Array.from({ length: Math.max((columns.get("outlet") ?? 1) - 1, 0) }, (_, index) => index + 1);
  return [...before, ...named].flatMap((column) => {
    const cell = shownCell(source, row, column);
    return cell.kind === "text" ? [cell.value] : [];
  });
}

const RESULTS: readonly ListColumnKey[] = ["airflow", "found", "left", "percent", "verdict"];

/** Whether the sheet has prepared the row: one of its results has a formula. */
function isPrepared(list: OutletList, row: number): boolean {
  return RESULTS.some((key) => rowFormula(list, row, key) !== undefined);
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
      yield { ...base, text, is: "total", hasReading: hasTypedReading(list, row) };
    } else if (!hasFigure && !isRead && (isSection(list, row) || (isApart && isAlone(list, row)))) {
      yield { ...base, is: "remark", hasReading: false };
    } else {
      lastFilled = row;
      yield { ...base, is: "outlet", hasReading: isRead };
    }
  }
}
