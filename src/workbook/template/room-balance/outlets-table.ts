import { headingOf, OLD_READING } from "../../lists/index.js";
import {
  ageColumn,
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
import { areaColumn, basisColumn, designVelocityColumn, freeAreaColumn, resultColumn } from "../face-results.js";
import {
  asStandardAir,
  decisionOf,
  doubtPercent,
  factorDoubt,
  GAPS,
  limitsFor,
  percentOfDesign,
  plusMinusOf,
  pointsOf,
  UNITS,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import { offeredInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell, TableSpec } from "../table-block.js";
import { drawOf } from "./retest-sheet.js";

export const READINGS = 6;

const readings = (at: RowCell) => `${at("R1")}:${at(`R${READINGS}`)}`;

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
  areaColumn,
  basisColumn,
  freeAreaColumn,
  designVelocityColumn,
  resultColumn(
    "velocity",
    "Average velocity",
    unit("fpm", "m/s"),
    9,
    "oneDecimal",
    (at) => `=IF(COUNT(${readings(at)})=0,"",VANE.TRAVERSE.AVERAGE(${readings(at)},COUNT(${readings(at)})))`,
  ),
  resultColumn(
    "airflow",
    "Airflow",
    unit("cfm", "L/s"),
    9,
    "oneDecimal",
    (at) =>
      `=IF(OR(${at("width")}="",COUNT(${readings(at)})=0),"",VANE.AIRFLOW.FACE(${at("width")},${at("height")},${readings(at)},${at("factor")},COUNT(${readings(at)}),${UNITS}))`,
  ),
  resultColumn(
    "doubt",
    "± percent (95 %)",
    "%",
    8,
    "oneDecimal",
    (at) => `=${doubtPercent(`COUNT(${readings(at)})>0`, factorDoubt(at("factor")), pointsOf(readings(at)))}`,
  ),
  resultColumn(
    "plusMinus",
    "± (95 %)",
    unit("cfm", "L/s"),
    7,
    "oneDecimal",
    (at) => `=${plusMinusOf(at("airflow"), at("doubt"))}`,
  ),
  resultColumn(
    "standardFlow",
    headingOf("standardAirflow"),
    unit("cfm", "L/s"),
    9,
    "oneDecimal",
    (at) => `=${asStandardAir(at("airflow"))}`,
  ),
  resultColumn(
    "percent",
    "Percent of design",
    "%",
    9,
    "oneDecimal",
    (at) => `=${percentOfDesign(at("airflow"), at("design"))}`,
  ),
  resultColumn("verdict", "Verdict", "", 10, "general", (at) => {
    const verdict = verdictByRule(at("airflow"), at("design"), at("plusMinus"), limitsFor(at("kind")));
    return `=IF(COUNT(${readings(at)})=0,"",IF(${at("width")}="","${GAPS.noSize}",IF(${at("design")}="","${GAPS.noDesign}",IF(${at("age")}="${OLD_READING}","${GAPS.old}",${verdict}))))`;
  }),
  resultColumn(
    "decided",
    headingOf("decision"),
    "",
    9,
    "general",
    (at) =>
      `=IF(OR(COUNT(${at("percent")},${at("plusMinus")})<2,${at("age")}="${OLD_READING}"),"",${decisionOf(at("airflow"), at("design"), at("plusMinus"), limitsFor(at("kind")))})`,
  ),
];

/** One row an outlet: what it is, its size and factor, the readings, and what follows from them. */
export function outletsTable(
  name: string,
  roomRange: string,
  systemRange: string,
  rooms: string,
  systems: string,
  seed: string,
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
    ageColumn,
    ...RESULTS,
    resultColumn("draw", headingOf("draw"), "", 9, "general", (at) => drawOf(at("airflow"), seed)),
    noteColumn,
  ];
  return { name, columns, headerRow: 8, rowCount: 30 };
}
