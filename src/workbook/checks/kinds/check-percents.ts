import { type ListColumnKey, type ListedOutlet, type ReadingState, rowCell, rowFormula } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";
import { ROUNDED_PERCENT } from "../thresholds.js";

const COLUMNS: readonly (readonly [ReadingState, ListColumnKey, ListColumnKey])[] = [
  ["now", "percent", "verdict"],
  ["found", "foundPercent", "foundVerdict"],
  ["left", "leftPercent", "leftVerdict"],
];

/** The airflow that a percent is of: that as left, where a list has but one column of percents. */
function flowOf(outlet: ListedOutlet, state: ReadingState): number | null {
  const { flow } = outlet[state];
  return state === "now" && flow === null ? (outlet.left.flow ?? outlet.found.flow) : flow;
}

const ROUND = /ROUND(?:UP|DOWN)?\(/i;
const NUMBER = /(?<![A-Z$\d.])\d+(?:\.\d+)?(?![\d.]*[A-Z(])/gi;
const DIGITS = /ROUND(?:UP|DOWN)?\(.*?,\s*(-?\d+)\s*\)/i;

/** Limits that stand in a formula of a verdict, in percent. */
function limitsIn(formula: string): readonly number[] {
  const numbers = [...formula.matchAll(NUMBER)].map(([number]) => Number(number));
  return numbers.flatMap((one) => (one > 0.5 && one < 1.5 ? 100 * one : one >= 50 && one <= 150 ? one : []));
}

/** A percent as its own formula, or that of the verdict, rounds it; undefined where neither does. */
function roundedPercent(
  shown: number,
  scale: number,
  ofPercent: string | undefined,
  ofVerdict: string,
): number | undefined {
  if (ofPercent !== undefined && ROUND.test(ofPercent)) return shown;
  const [, digits] = DIGITS.exec(ofVerdict) ?? [];
  if (digits === undefined) return undefined;
  const tens = 10 ** Number(digits);
  // A part of 1 rounded to two digits is a whole percent.
  return (Math.round((shown / scale) * tens) / tens) * scale;
}

function wrongPercent(percent: number, flow: number, design: number): string | undefined {
  const own = (100 * flow) / design;
  if (Math.abs(percent - own) <= ROUNDED_PERCENT) return undefined;
  const inverse = (100 * design) / flow;
  const why = Math.abs(percent - inverse) <= ROUNDED_PERCENT ? " It divides the design by the airflow." : "";
  const scaled = Math.abs(100 * percent - own) <= ROUNDED_PERCENT ? " It is a part of 1, not a percent." : "";
  return `The percent is ${shownNumber(percent)}, but airflow and design of its row give ${shownNumber(own)}.${why}${scaled}`;
}

function checkedRow(list: CheckedList, outlet: ListedOutlet): readonly Draft[] {
  const { sheet } = list;
  const { columns, columnScales } = list.list;
  return COLUMNS.flatMap(([state, percentKey, verdictKey]): readonly Draft[] => {
    const column = columns.get(percentKey);
    const cell = rowCell(list.list, outlet.row.row, percentKey);
    const flow = flowOf(outlet, state);
    if (column === undefined || cell.kind !== "number" || flow === null || flow === 0 || outlet.design === null)
      return [];
    if (outlet.unitsOf("design") !== outlet.unitsOf(state === "now" ? "airflow" : state)) return [];
    const wrong = wrongPercent(cell.value, flow, outlet.design);
    const at = { sheet, range: oneCell(outlet.row.row, column) };
    if (wrong !== undefined) {
      const action = "Divide the airflow of the row by its design.";
      return [{ ...at, kind: "result-not-from-inputs", severity: "error", problem: wrong, action }];
    }
    const verdict = rowFormula(list.list, outlet.row.row, verdictKey);
    if (verdict === undefined) return [];
    const own = (100 * flow) / outlet.design;
    const formula = rowFormula(list.list, outlet.row.row, percentKey);
    const rounded = roundedPercent(cell.value, columnScales.get(column) ?? 1, formula, verdict);
    const crossed =
      rounded === undefined ? undefined : limitsIn(verdict).find((limit) => own < limit !== rounded < limit);
    if (crossed === undefined || rounded === undefined) return [];
    const isInVerdict = formula === undefined || !ROUND.test(formula);
    const judgedAt = isInVerdict ? (columns.get(verdictKey) ?? column) : column;
    return [
      {
        sheet,
        range: oneCell(outlet.row.row, judgedAt),
        kind: "percent-rounded",
        severity: "error",
        problem: `The percent is rounded to ${shownNumber(rounded)} before it is judged against ${shownNumber(crossed)}; unrounded it is ${Number(own.toFixed(3))}, on the other side.`,
        action: "Judge the unrounded percent, and round only what is shown.",
      },
    ];
  });
}

/** Percents of a contractor's own sheet: of other figures than those of their row, or rounded before they are judged. */
export function checkPercents(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists
    .filter(({ list }) => list.foundBy === "mapping")
    .flatMap((list) => list.outlets.flatMap((outlet) => checkedRow(list, outlet)));
}
