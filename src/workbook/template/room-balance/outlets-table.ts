import { ASSUMED_FREE_AREA } from "../../../../shared/tables/assumed-free-area.js";
import {
  designColumn,
  factorColumn,
  heightColumn,
  kindColumn,
  makeColumn,
  noteColumn,
  outletColumn,
  readingColumns,
  widthColumn,
} from "../common-columns.js";
import {
  AIRFLOW_SCALE,
  factorDoubt,
  GAPS,
  limitsFor,
  percentOfDesign,
  plusMinusOf,
  UNITS,
  unit,
  verdictOf,
} from "../native.js";
import { offeredInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell, TableSpec } from "../table-block.js";

export const READINGS = 6;

const readings = (at: RowCell) => `${at("R1")}:${at(`R${READINGS}`)}`;
const UNKNOWN_FACTOR = ASSUMED_FREE_AREA.metal.freeAreaRatio;

function offered(
  key: string,
  header: string,
  width: number,
  message: string,
  range: string,
  sheet: string,
): InputColumn {
  const rule = offeredInput(header, message, range, sheet);
  return { kind: "input", key, header, unit: "", width, format: "general", style: "inputText", rule };
}

const RESULTS: readonly ColumnSpec[] = [
  {
    kind: "result",
    key: "area",
    header: "Area",
    unit: unit("ft²", "m²"),
    width: 8,
    format: "fourDecimals",
    style: "result",
    formula: (at) =>
      `=IF(${at("width")}="","",IF(${at("height")}="",VANE.OPENING.ROUND(${at("width")},${UNITS}),VANE.OPENING.RECT(${at("width")},${at("height")},${UNITS})))`,
  },
  {
    kind: "result",
    key: "basis",
    header: "Factor is",
    unit: "",
    width: 9,
    format: "general",
    style: "resultCenter",
    formula: (at) => `=IF(${at("width")}="","",IF(${at("factor")}="","assumed","given"))`,
  },
  {
    kind: "result",
    key: "free",
    header: "Free area",
    unit: unit("ft²", "m²"),
    width: 8,
    format: "fourDecimals",
    style: "result",
    formula: (at) => `=IF(${at("width")}="","",${at("area")}*IF(${at("factor")}="",${UNKNOWN_FACTOR},${at("factor")}))`,
  },
  {
    kind: "result",
    key: "designVelocity",
    header: "Design velocity",
    unit: unit("fpm", "m/s"),
    width: 8,
    format: "oneDecimal",
    style: "result",
    formula: (at) => `=IF(COUNT(${at("design")},${at("free")})=2,${at("design")}/${at("free")}/${AIRFLOW_SCALE},"")`,
  },
  {
    kind: "result",
    key: "velocity",
    header: "Mean velocity",
    unit: unit("fpm", "m/s"),
    width: 8,
    format: "oneDecimal",
    style: "result",
    formula: (at) => `=IF(COUNT(${readings(at)})=0,"",VANE.TRAVERSE.AVERAGE(${readings(at)},COUNT(${readings(at)})))`,
  },
  {
    kind: "result",
    key: "airflow",
    header: "Airflow",
    unit: unit("cfm", "L/s"),
    width: 9,
    format: "oneDecimal",
    style: "result",
    formula: (at) =>
      `=IF(OR(${at("width")}="",COUNT(${readings(at)})=0),"",VANE.AIRFLOW.FACE(${at("width")},${at("height")},${readings(at)},${at("factor")},COUNT(${readings(at)}),${UNITS}))`,
  },
  {
    kind: "result",
    key: "plusMinus",
    header: "±",
    unit: unit("cfm", "L/s"),
    width: 7,
    format: "oneDecimal",
    style: "result",
    formula: (at) => `=${plusMinusOf(at("airflow"), factorDoubt(at("factor")))}`,
  },
  {
    kind: "result",
    key: "percent",
    header: "Percent of design",
    unit: "%",
    width: 9,
    format: "oneDecimal",
    style: "result",
    formula: (at) => `=${percentOfDesign(at("airflow"), at("design"))}`,
  },
  {
    kind: "result",
    key: "verdict",
    header: "Verdict",
    unit: "",
    width: 11,
    format: "general",
    style: "resultCenter",
    formula: (at) => {
      const { minus, plus } = limitsFor(at("kind"));
      const verdict = verdictOf(at("airflow"), at("design"), minus, plus);
      return `=IF(COUNT(${readings(at)})=0,"",IF(${at("width")}="","${GAPS.noSize}",IF(${at("design")}="","${GAPS.noDesign}",${verdict})))`;
    },
  },
];

/** One row an outlet: what it is, its size and factor, the readings, and what follows from them. */
export function outletsTable(
  name: string,
  roomRange: string,
  systemRange: string,
  rooms: string,
  systems: string,
): TableSpec {
  const columns: readonly ColumnSpec[] = [
    outletColumn,
    offered("system", "System", 9, "The fan or unit that serves it, as on the sheet of systems.", systemRange, systems),
    offered("room", "Room", 16, "The room, spelled as on the sheet of rooms.", roomRange, rooms),
    kindColumn,
    makeColumn,
    widthColumn,
    heightColumn,
    factorColumn,
    designColumn,
    ...readingColumns(
      READINGS,
      "R",
      "Reading",
      "One velocity at the face. Spread the readings over equal parts of it; 0 is a dead spot, empty is not measured.",
    ),
    ...RESULTS,
    noteColumn,
  ];
  return { name, columns, headerRow: 8, rowCount: 40 };
}
