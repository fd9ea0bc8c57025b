import { ASSUMED_FREE_AREA } from "../../../../shared/tables/assumed-free-area.js";
import { formatAddress } from "../../../xlsx/address.js";
import {
  AIRFLOW_KEYS,
  airflowFromReadings,
  type ListedOutlet,
  type ReadingColumns,
  type RowInputs,
  scaledCell,
  wholeAreaFt2,
} from "../../lists/index.js";
import { type RowFormula, rowFormulaAt } from "../../takeover/row-formula.js";
import { FOLLOWS_INPUTS_RATIO } from "../thresholds.js";
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

/** Whether an airflow is another than what its row's own inputs give. */
export const differsFromInputs = ({ stated, own }: Pick<ComparedAirflow, "stated" | "own">) =>
  Math.abs(stated - own) > FOLLOWS_INPUTS_RATIO * Math.max(Math.abs(own), Math.abs(stated));

/** The formula by which a row works an airflow out; undefined for a typed number and for a call of ours. */
function plainFormula({ outlet, column }: ComparedAirflow): RowFormula | undefined {
  const { source } = outlet.list;
  const text = source.formulaAt(outlet.row.row, column);
  return text === undefined || CALLS_VANE.test(text) ? undefined : rowFormulaAt(source, outlet.row.row, column);
}

/** Columns that hold a reading which the average of the row's own formula does not take in, however little that matters. */
export function readingsLeftOut(compared: ComparedAirflow): readonly number[] {
  const { outlet, readings } = compared;
  const averaged = plainFormula(compared)?.averaged;
  if (averaged === undefined || readings.holds !== "velocity") return [];
  if (!readings.columns.some((column) => averaged.has(column))) return [];
  const { list, row } = outlet;
  // A reading that a formula fetches from elsewhere counts as what is elsewhere.
  return readings.columns.filter(
    (column) =>
      !averaged.has(column) &&
      !list.source.hasFormula(row.row, column) &&
      scaledCell(list, row.row, column).kind === "number",
  );
}

/** Numbers of the row that its formula takes and that no column of the list stands for. */
function unknownOperands({ outlet, column }: ComparedAirflow, formula: RowFormula | null) {
  const { list, row } = outlet;
  const known = new Set([
    ...list.columns.values(),
    ...list.readings.flatMap(({ columns, seconds }) => [...columns, ...seconds]),
    column,
  ]);
  return [...(formula?.columns ?? [])].flatMap((one) => {
    const value = list.source.valueAt(row.row, one);
    const isOther = !known.has(one) && formula?.averaged.has(one) !== true;
    return isOther && typeof value === "number" ? [{ address: formatAddress(row.row, one), value }] : [];
  });
}

/** Why an airflow is not what its inputs give; undefined where no usual mistake fits, or where it is a call of ours. */
export function causeOf(compared: ComparedAirflow): Cause | undefined {
  const { outlet, readings, column, inputs, stated, own } = compared;
  const { source } = outlet.list;
  const { row } = outlet.row;
  const text = source.formulaAt(row, column);
  if (text !== undefined && CALLS_VANE.test(text)) return undefined;
  const formula = plainFormula(compared) ?? null;
  return explainDifference({
    stated,
    own,
    formula,
    others: unknownOperands(compared, formula),
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
