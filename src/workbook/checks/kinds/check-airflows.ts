import { ASSUMED_FREE_AREA } from "../../../../shared/tables/assumed-free-area.js";
import {
  AIRFLOW_KEYS,
  airflowFromReadings,
  type ListedOutlet,
  type ReadingColumns,
  type RowInputs,
  rowFormula,
  scaledCell,
  wholeAreaFt2,
} from "../../lists/index.js";
import { rowFormulaAt } from "../../takeover/row-formula.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { counted, type Draft, oneCell, shownNumber } from "../support/draft.js";
import { type Cause, explainDifference } from "../support/explain-difference.js";
import { FAR_ABOVE_DESIGN_RATIO, FAR_BELOW_DESIGN_RATIO, FOLLOWS_INPUTS_RATIO, SAME_RATIO } from "../thresholds.js";

/** An airflow that no balance is so far off as to have. */
function farFromDesign({ sheet, list }: CheckedList, outlet: ListedOutlet): readonly Draft[] {
  const { design, measured, row } = outlet;
  if (design === null || measured === null || measured <= 0) return [];
  const share = measured / design;
  if (share <= FAR_ABOVE_DESIGN_RATIO && share >= FAR_BELOW_DESIGN_RATIO) return [];
  const key = outlet.left.flow !== null ? "left" : outlet.now.flow !== null ? "airflow" : "found";
  const column = list.columns.get(key) ?? list.columns.get("design") ?? 1;
  return [
    {
      kind: "airflow-far-from-design",
      severity: "warning",
      sheet,
      range: oneCell(row.row, column),
      problem: `The airflow is ${shownNumber(100 * share)} % of its design: ${shownNumber(measured)} for ${shownNumber(design)}.`,
      action:
        "Look whether a reading, the size, the factor or the design was mistyped. If all are right, say so in a note.",
    },
  ];
}

function numbersIn({ list, row }: ListedOutlet, columns: readonly number[]): readonly number[] | null {
  const cells = columns.map((column) => scaledCell(list, row.row, column)).filter(({ kind }) => kind !== "blank");
  const numbers = cells.flatMap((cell) => (cell.kind === "number" ? cell.value : []));
  return numbers.length === cells.length ? numbers : null;
}

/** A call that takes an opening and its readings, and nothing around it that may correct its result. */
const FACE_CALL = /^(?:_xldudf_)?VANE[._]AIRFLOW[._]FACE\((?:[^()]|\([^()]*\))*\)$/i;

const CALLS_VANE = /VANE[._]/i;

/** What the row's own cells say of an airflow. */
function inputsOf(outlet: ListedOutlet, readings: ReadingColumns): RowInputs | null {
  const { list, opening } = outlet;
  const velocities = numbersIn(outlet, readings.columns);
  const seconds = readings.holds === "sweep" ? numbersIn(outlet, readings.seconds) : null;
  if (velocities === null || (readings.holds === "sweep" && seconds === null)) return null;
  const units = outlet.units ?? "ip";
  return {
    ...opening,
    sizeUnits: opening.sizeUnits ?? "ip",
    areaUnits: opening.areaUnits ?? "ip",
    velocityUnits: list.columnUnits.get(readings.columns[0] ?? 0) ?? units,
    flowUnits: opening.flowUnits(readings.state) ?? units,
    velocities,
    seconds,
  };
}

/** An airflow of a row and what its own inputs give, in the unit of the airflow. */
interface Compared {
  readonly outlet: ListedOutlet;
  readonly readings: ReadingColumns;
  readonly column: number;
  readonly inputs: RowInputs;
  readonly stated: number;
  readonly own: number;
}

/**
 * Whether an airflow has to follow from the inputs of its row. Our sheets and those whose columns a person explained do;
 * in another list only a plain call does, since other formulas may correct for density.
 */
function mustFollow({ list }: CheckedList, formula: string | undefined): boolean {
  if (list.foundBy === "mapping") return true;
  return formula !== undefined && (list.form !== "own" || FACE_CALL.test(formula));
}

function comparedRows(checked: CheckedList): readonly Compared[] {
  const { list } = checked;
  return checked.outlets.flatMap((outlet) =>
    list.readings.flatMap((readings): readonly Compared[] => {
      const key = AIRFLOW_KEYS[readings.state];
      const { flow, from } = outlet[readings.state];
      const column = list.columns.get(key);
      if (column === undefined || flow === null || from !== "cell") return [];
      if (!mustFollow(checked, rowFormula(list, outlet.row.row, key))) return [];
      const inputs = inputsOf(outlet, readings);
      const own = inputs === null ? null : airflowFromReadings(inputs);
      return inputs === null || own === null ? [] : [{ outlet, readings, column, inputs, stated: flow, own }];
    }),
  );
}

const differs = ({ stated, own }: Compared) =>
  Math.abs(stated - own) > FOLLOWS_INPUTS_RATIO * Math.max(Math.abs(own), Math.abs(stated));

function causeOf(compared: Compared): Cause | undefined {
  const { outlet, readings, column, inputs, stated, own } = compared;
  const { source } = outlet.list;
  const { row } = outlet.row;
  const text = source.formulaAt(row, column);
  if (text !== undefined && CALLS_VANE.test(text)) return undefined;
  const formula = rowFormulaAt(source, row, column) ?? null;
  return explainDifference({
    stated,
    own,
    formula,
    readings: readings.columns.map((one) => {
      const cell = scaledCell(outlet.list, row, one);
      return { column: one, value: cell.kind === "number" ? cell.value : null };
    }),
    seconds: inputs.seconds,
    factor: inputs.freeArea === null ? (inputs.factor ?? ASSUMED_FREE_AREA.metal.freeAreaRatio) : 1,
    width: inputs.width,
    height: inputs.height,
    areaFt2: wholeAreaFt2(inputs),
    isSi: inputs.sizeUnits === "si",
  });
}

/** Rows below one another that are wrong in the same way are told once. */
interface Difference {
  readonly first: Compared;
  readonly last: Compared;
  readonly count: number;
  readonly cause: Cause | undefined;
}

const isSameRatio = (one: Compared, other: Compared) =>
  Math.abs((one.stated / one.own) * (other.own / other.stated) - 1) < SAME_RATIO;

function joinedDifferences(wrong: readonly Compared[]): readonly Difference[] {
  const found: Difference[] = [];
  for (const compared of wrong) {
    const cause = causeOf(compared);
    const before = found.at(-1);
    const isNext =
      before !== undefined &&
      before.last.column === compared.column &&
      compared.outlet.row.row === before.last.outlet.row.row + 1 &&
      before.cause?.problem === cause?.problem &&
      isSameRatio(before.last, compared);
    if (isNext) found[found.length - 1] = { ...before, last: compared, count: before.count + 1 };
    else found.push({ first: compared, last: compared, count: 1, cause });
  }
  return found;
}

function explained({ sheet, list }: CheckedList, { first, last, count, cause }: Difference): Draft {
  const { stated, own, column, outlet } = first;
  const isTyped = list.source.formulaAt(outlet.row.row, column) === undefined;
  const more = count === 1 ? "" : ` The same in ${counted(count, "row")}.`;
  const why = cause === undefined ? "" : ` ${cause.problem}`;
  const ratio = cause === undefined ? ` It is ${shownNumber(stated / own)} times as large.` : "";
  const typed = isTyped ? " It was typed, so it no longer follows the readings." : "";
  return {
    kind: "result-not-from-inputs",
    severity: "error",
    sheet,
    range: { ...oneCell(outlet.row.row, column), lastRow: last.outlet.row.row },
    problem: `The airflow is ${shownNumber(stated)}, but the readings, size and factor of its own row give ${shownNumber(own)}.${why}${ratio}${typed}${more}`,
    action:
      cause?.action ??
      (isTyped
        ? "Put the formula of its column back, and correct the readings if its result is wrong."
        : "Copy the formula from a row whose airflow is right, and let the workbook calculate."),
  };
}

/** Airflows of a list that cannot be: by the inputs of their own row, or by their design. */
export function checkAirflows(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap((list) => {
    const wrong = comparedRows(list).filter(differs);
    const rows = new Set(wrong.map(({ outlet }) => outlet.row.row));
    return [
      ...joinedDifferences(wrong).map((difference) => explained(list, difference)),
      ...list.outlets.filter(({ row }) => !rows.has(row.row)).flatMap((outlet) => farFromDesign(list, outlet)),
    ];
  });
}
