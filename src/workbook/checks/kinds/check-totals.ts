import { columnLetters, columnNumber } from "../../../xlsx/index.js";
import type { ListColumnKey, OutletList } from "../../lists/index.js";
import type { PlacedFormula, WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";

/** A total over one column of its own sheet. */
interface Total {
  readonly formula: PlacedFormula;
  readonly name: string;
  readonly column: number;
  readonly firstRow: number;
  readonly lastRow: number;
}

const TOTAL =
  /^(?:ROUND\()?(SUM|AVERAGE|SUBTOTAL)\(\s*(?:\d+\s*,\s*)?\$?([A-Z]{1,3})\$?(\d+):\$?([A-Z]{1,3})\$?(\d+)\s*\)/i;

function totalOf(formula: PlacedFormula): readonly Total[] {
  const [, name = "", from = "", firstRow, to = "", lastRow] = TOTAL.exec(formula.text) ?? [];
  if (name === "" || from.toUpperCase() !== to.toUpperCase() || firstRow === lastRow) return [];
  return [
    {
      formula,
      name: name.toUpperCase(),
      column: columnNumber(from),
      firstRow: Number(firstRow),
      lastRow: Number(lastRow),
    },
  ];
}

/** Whether two cells of a column are of one kind: the same formula, or both typed. */
function isAlike(index: WorkbookIndex, sheet: number, column: number, one: number, other: number): boolean {
  const [first, second] = [index.formulaAt(sheet, one, column), index.formulaAt(sheet, other, column)];
  if (first === undefined && second === undefined) return true;
  return first !== undefined && second !== undefined && first.form === second.form;
}

/** A total that ends above the last figure of its column, or begins below the first outlet of its list. */
function shortRange(index: WorkbookIndex, lists: readonly CheckedList[], total: Total): readonly Draft[] {
  const { formula, column, firstRow, lastRow } = total;
  const { sheet } = formula;
  const isFigure = (row: number) => typeof index.valueAt(sheet, row, column) === "number";
  const missed: number[] = [];
  if (formula.column === column) {
    for (let row = lastRow + 1; row < formula.row; row += 1) {
      if (!isFigure(row) || !isAlike(index, sheet, column, row, lastRow)) break;
      missed.push(row);
    }
  }
  const list = lists.find(
    ({ sheet: on, list: one }) => on === sheet && firstRow > one.headerRow && firstRow <= one.lastRow,
  );
  const outlets = new Set(list?.rows.filter(({ is }) => is === "outlet").map(({ row }) => row));
  for (let row = firstRow - 1; outlets.has(row); row -= 1) {
    if (!isFigure(row) || !isAlike(index, sheet, column, row, firstRow)) break;
    missed.unshift(row);
  }
  const [first, last] = [missed[0], missed.at(-1)];
  if (first === undefined || last === undefined) return [];
  const letters = columnLetters(column);
  const rows = first === last ? `${letters}${first}` : `${letters}${first}:${letters}${last}`;
  return [
    {
      kind: "range-stops-short",
      severity: "error",
      sheet,
      range: oneCell(formula.row, formula.column),
      problem: `${total.name} takes ${letters}${firstRow}:${letters}${lastRow} and leaves out ${rows}, which ${missed.length === 1 ? "holds a figure" : "hold figures"} of the same kind.`,
      action: `Let it reach from ${letters}${Math.min(first, firstRow)} to ${letters}${Math.max(last, lastRow)}.`,
    },
  ];
}

const PERCENTS: readonly (readonly [ListColumnKey, ListColumnKey])[] = [
  ["percent", "airflow"],
  ["foundPercent", "found"],
  ["leftPercent", "left"],
];

/** What the outlets of some rows give together, in percent of what was designed for them. */
function percentTogether({ outlets, list }: CheckedList, total: Total, key: ListColumnKey): number | null {
  const within = outlets.filter(({ row }) => row.row >= total.firstRow && row.row <= total.lastRow);
  const state = key === "found" ? "found" : key === "left" ? "left" : list.columns.has("airflow") ? "now" : "left";
  const measured = within.filter((outlet) => outlet.design !== null && outlet[state].flow !== null);
  const design = measured.reduce((sum, outlet) => sum + (outlet.design ?? 0), 0);
  const airflow = measured.reduce((sum, outlet) => sum + (outlet[state].flow ?? 0), 0);
  return design === 0 ? null : (100 * airflow) / design;
}

function isPercentColumn({ columns }: OutletList, column: number) {
  return PERCENTS.find(([percent]) => columns.get(percent) === column);
}

/** A sum or an average of percents in place of total airflow over total design. */
function addedPercents(index: WorkbookIndex, lists: readonly CheckedList[], total: Total): readonly Draft[] {
  const { formula } = total;
  const list = lists.find(
    ({ sheet, list: one }) =>
      sheet === formula.sheet &&
      total.firstRow > one.headerRow &&
      total.firstRow <= one.lastRow &&
      isPercentColumn(one, total.column) !== undefined,
  );
  const found = list === undefined ? undefined : isPercentColumn(list.list, total.column);
  if (list === undefined || found === undefined) return [];
  const together = percentTogether(list, total, found[1]);
  const scale = list.list.columnScales.get(total.column) ?? 1;
  const stated = index.valueAt(formula.sheet, formula.row, formula.column);
  const shown = typeof stated === "number" ? `${shownNumber(stated * scale)} %` : "its result";
  const own = together === null ? "" : `; together they have ${shownNumber(together)} % of their design`;
  return [
    {
      kind: "percents-added-up",
      severity: "error",
      sheet: formula.sheet,
      range: oneCell(formula.row, formula.column),
      problem: `${total.name === "AVERAGE" ? "It averages" : "It adds up"} the percents of outlets (${shown})${own}.`,
      action: "Divide the total airflow by the total design.",
    },
  ];
}

/** What is wrong with totals: ranges that stop short, percents added up. */
export function checkTotals(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  const totals = index.formulas.flatMap(totalOf);
  return totals.flatMap((total) => [...shortRange(index, lists, total), ...addedPercents(index, lists, total)]);
}
