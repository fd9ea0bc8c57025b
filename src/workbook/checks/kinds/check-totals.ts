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
  /** Whether it takes every row in between. */
  readonly isWhole: boolean;
}

const TOTAL = /^(?:ROUND\()?(SUM|AVERAGE|SUBTOTAL)\(\s*(?:\d+\s*,\s*)?([^()]*)\)/i;
const BLOCK = /^\s*\$?([A-Z]{1,3})\$?(\d+):\$?([A-Z]{1,3})\$?(\d+)\s*$/i;

function totalOf(formula: PlacedFormula): readonly Total[] {
  const [, name = "", taken = ""] = TOTAL.exec(formula.text) ?? [];
  if (name === "") return [];
  const blocks = taken.split(",").map((block) => {
    const [, from = "", firstRow, to = "", lastRow] = BLOCK.exec(block) ?? [];
    return { from: from.toUpperCase(), to: to.toUpperCase(), firstRow: Number(firstRow), lastRow: Number(lastRow) };
  });
  const [{ from = "" } = {}] = blocks;
  if (from === "" || !blocks.every((block) => block.from === from && block.to === from)) return [];
  const firstRow = Math.min(...blocks.map((block) => block.firstRow));
  const lastRow = Math.max(...blocks.map((block) => block.lastRow));
  if (firstRow === lastRow) return [];
  const isWhole = blocks.length === 1;
  return [{ formula, name: name.toUpperCase(), column: columnNumber(from), firstRow, lastRow, isWhole }];
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
  if (!total.isWhole) return [];
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

/** Sums within the cells that a sum takes: what they add up counts twice. SUBTOTAL leaves other subtotals out. */
function countedTwice(total: Total, totals: readonly Total[]): readonly Draft[] {
  const { formula, column, firstRow, lastRow, isWhole } = total;
  if (total.name !== "SUM" || !isWhole) return [];
  const within = totals.filter(
    (other) =>
      other.name === "SUM" &&
      other.formula !== formula &&
      other.formula.sheet === formula.sheet &&
      other.formula.column === column &&
      other.column === column &&
      other.formula.row >= firstRow &&
      other.formula.row <= lastRow &&
      other.firstRow >= firstRow &&
      other.lastRow <= lastRow,
  );
  if (within.length === 0) return [];
  const letters = columnLetters(column);
  const sums = within.map((one) => `${letters}${one.formula.row}`).join(", ");
  return [
    {
      kind: "counted-twice",
      severity: "error",
      sheet: formula.sheet,
      range: oneCell(formula.row, formula.column),
      problem: `SUM takes ${letters}${firstRow}:${letters}${lastRow}, the figures and their own ${within.length === 1 ? "sum" : "sums"} in ${sums} as well: what they add up counts twice.`,
      action: "Add up the sums alone, or the figures alone; or let every one of them be a SUBTOTAL.",
    },
  ];
}

/** What is wrong with totals: ranges that stop short, figures that count twice, percents added up. */
export function checkTotals(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  const totals = index.formulas.flatMap(totalOf);
  return totals.flatMap((total) => [
    ...shortRange(index, lists, total),
    ...countedTwice(total, totals),
    ...addedPercents(index, lists, total),
  ]);
}
