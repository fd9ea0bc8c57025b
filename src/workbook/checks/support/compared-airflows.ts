import { ASSUMED_FREE_AREA } from "../../../../shared/tables/assumed-free-area.js";
import {
  AIRFLOW_KEYS,
  airflowFromReadings,
  type ListedOutlet,
  type ReadingColumns,
  type RowInputs,
  scaledCell,
  wholeAreaFt2,
} from "../../lists/index.js";
import { rowFormulaAt } from "../../takeover/row-formula.js";
import { type Cause, explainDifference } from "./explain-difference.js";

function numbersIn({ list, row }: ListedOutlet, columns: readonly number[]): readonly number[] | null {
  const cells = columns.map((column) => scaledCell(list, row.row, column)).filter(({ kind }) => kind !== "blank");
  const numbers = cells.flatMap((cell) => (cell.kind === "number" ? cell.value : []));
  return numbers.length === cells.length ? numbers : null;
}

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
export interface ComparedAirflow {
  readonly outlet: ListedOutlet;
  readonly readings: ReadingColumns;
  readonly column: number;
  readonly inputs: RowInputs;
  readonly stated: number;
  readonly own: number;
}

/** What a row states of its airflows beside what its own inputs give; none where one of the two is missing. */
export function comparedAirflows(outlet: ListedOutlet): readonly ComparedAirflow[] {
  const { list } = outlet;
  return list.readings.flatMap((readings): readonly ComparedAirflow[] => {
    const { flow, from } = outlet[readings.state];
    const column = list.columns.get(AIRFLOW_KEYS[readings.state]);
    if (column === undefined || flow === null || from !== "cell") return [];
    const inputs = inputsOf(outlet, readings);
    const own = inputs === null ? null : airflowFromReadings(inputs);
    return inputs === null || own === null ? [] : [{ outlet, readings, column, inputs, stated: flow, own }];
  });
}

/** Why an airflow is not what its inputs give; undefined where no usual mistake fits, or where it is a call of ours. */
export function causeOf(compared: ComparedAirflow): Cause | undefined {
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
