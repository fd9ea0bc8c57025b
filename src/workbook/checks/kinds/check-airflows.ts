import {
  AIRFLOW_KEYS,
  airflowFromReadings,
  type ListedOutlet,
  type ReadingColumns,
  rowFormula,
  scaledCell,
} from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";
import { FAR_ABOVE_DESIGN_RATIO, FAR_BELOW_DESIGN_RATIO, FOLLOWS_INPUTS_RATIO } from "../thresholds.js";

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

function fromInputs(outlet: ListedOutlet, readings: ReadingColumns): number | null {
  const { list, opening } = outlet;
  const velocities = numbersIn(outlet, readings.columns);
  const seconds = readings.holds === "sweep" ? numbersIn(outlet, readings.seconds) : null;
  if (velocities === null || (readings.holds === "sweep" && seconds === null)) return null;
  const units = outlet.units ?? "ip";
  return airflowFromReadings({
    ...opening,
    sizeUnits: opening.sizeUnits ?? "ip",
    areaUnits: opening.areaUnits ?? "ip",
    velocityUnits: list.columnUnits.get(readings.columns[0] ?? 0) ?? units,
    flowUnits: opening.flowUnits(readings.state) ?? units,
    velocities,
    seconds,
  });
}

/** An airflow that the row's own readings, size and factor do not give, as where its formula looks at another row. */
function notFromInputs({ sheet, list }: CheckedList, outlet: ListedOutlet): readonly Draft[] {
  return list.readings.flatMap((readings): readonly Draft[] => {
    const key = AIRFLOW_KEYS[readings.state];
    const { flow, from } = outlet[readings.state];
    const formula = rowFormula(list, outlet.row.row, key);
    const column = list.columns.get(key);
    if (column === undefined || flow === null || from !== "cell" || formula === undefined) return [];
    if (list.form === "own" && !FACE_CALL.test(formula)) return [];
    const own = fromInputs(outlet, readings);
    if (own === null || Math.abs(flow - own) <= FOLLOWS_INPUTS_RATIO * Math.max(Math.abs(own), Math.abs(flow)))
      return [];
    return [
      {
        kind: "result-not-from-inputs",
        severity: "error",
        sheet,
        range: oneCell(outlet.row.row, column),
        problem: `The airflow is ${shownNumber(flow)}, but the readings, size and factor of its own row give ${shownNumber(own)}.`,
        action: "Copy the formula from a row whose airflow is right, and let the workbook calculate.",
      },
    ];
  });
}

/** Airflows of a list that cannot be: by their design, or by the inputs of their own row. */
export function checkAirflows(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap((list) =>
    list.outlets.flatMap((outlet) => {
      const wrong = notFromInputs(list, outlet);
      return wrong.length > 0 ? wrong : farFromDesign(list, outlet);
    }),
  );
}
