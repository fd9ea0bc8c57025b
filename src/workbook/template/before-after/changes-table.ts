import {
  designColumn,
  factorColumn,
  heightColumn,
  kindColumn,
  noteColumn,
  outletColumn,
  readingColumns,
  roomColumn,
  systemColumn,
  widthColumn,
} from "../common-columns.js";
import { basisColumn, faceAirflow, resultColumn } from "../face-results.js";
import { jobCell } from "../job-sheet.js";
import {
  doubtPercent,
  factorDoubt,
  GAPS,
  limitsFor,
  percentOfDesign,
  plusMinusOf,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import type { ColumnSpec, RowCell, TableSpec } from "../table-block.js";

/** Whether a change exceeds its own ±. */
export const AMOUNTS = { known: "yes", unknown: "not well" } as const;

const NO_AIRFLOW = "no airflow before";

function airflowColumn(key: string, header: string, readings: (at: RowCell) => string): ColumnSpec {
  return resultColumn(key, header, unit("cfm", "L/s"), 9, "oneDecimal", (at) => faceAirflow(at, readings(at)));
}

function percentColumn(key: string, header: string, airflow: string): ColumnSpec {
  return resultColumn(key, header, "%", 9, "oneDecimal", (at) => `=${percentOfDesign(at(airflow), at("design"))}`);
}

function verdictColumn(
  key: string,
  header: string,
  [airflow, doubt]: readonly [airflow: string, doubt: string],
  readings: (at: RowCell) => string,
): ColumnSpec {
  return resultColumn(key, header, "", 10, "general", (at) => {
    const verdict = verdictByRule(at(airflow), at("design"), at(doubt), limitsFor(at("kind")));
    return `=IF(COUNT(${readings(at)})=0,"",IF(${at("width")}="","${GAPS.noSize}",IF(${at("design")}="","${GAPS.noDesign}",${verdict})))`;
  });
}

/** What follows from the sweeps of a row, before and after. */
function results(sweeps: number): readonly ColumnSpec[] {
  const block = (prefix: string) => (at: RowCell) => `${at(`${prefix}1`)}:${at(`${prefix}${sweeps}`)}`;
  const [before, after] = [block("B"), block("A")];
  const both = (at: RowCell) => `OR(COUNT(${before(at)})=0,COUNT(${after(at)})=0)`;
  // Mean velocities stand for the airflows: size and factor are the same before and after, and cancel.
  const means = (at: RowCell) => `AVERAGE(${before(at)}),AVERAGE(${after(at)})`;
  return [
    basisColumn,
    airflowColumn("beforeFlow", "Airflow before", before),
    airflowColumn("afterFlow", "Airflow after", after),
    resultColumn(
      "difference",
      "Change in airflow",
      unit("cfm", "L/s"),
      8,
      "signed",
      (at) => `=IF(COUNT(${at("beforeFlow")},${at("afterFlow")})=2,${at("afterFlow")}-${at("beforeFlow")},"")`,
    ),
    resultColumn(
      "change",
      "Change in percent",
      "%",
      8,
      "signed",
      (at) => `=IF(${both(at)},"",IF(AVERAGE(${before(at)})>0,VANE.CHANGE.PERCENT(${means(at)},1),""))`,
    ),
    resultColumn(
      "answer",
      "Did it change?",
      "",
      58,
      "general",
      (at) =>
        `=IF(${both(at)},"",IF(AVERAGE(${before(at)})>0,VANE.CHANGE.SWEEPS(${before(at)},${after(at)},COUNT(${before(at)}),COUNT(${after(at)}),,${jobCell("resolution")}),"${NO_AIRFLOW}"))`,
      "resultText",
    ),
    resultColumn(
      "doubt",
      "± percent (95 %)",
      "%",
      8,
      "oneDecimal",
      (at) => `=${doubtPercent(`NOT(${both(at)})`, factorDoubt(at("factor")), "")}`,
    ),
    resultColumn(
      "beforeDoubt",
      "± before (95 %)",
      unit("cfm", "L/s"),
      8,
      "oneDecimal",
      (at) => `=${plusMinusOf(at("beforeFlow"), at("doubt"))}`,
    ),
    resultColumn(
      "afterDoubt",
      "± after (95 %)",
      unit("cfm", "L/s"),
      8,
      "oneDecimal",
      (at) => `=${plusMinusOf(at("afterFlow"), at("doubt"))}`,
    ),
    resultColumn(
      "known",
      "± of the change (95 %)",
      unit("cfm", "L/s"),
      8,
      "oneDecimal",
      (at) =>
        `=IF(COUNT(${at("beforeDoubt")},${at("afterDoubt")})=2,SQRT(${at("beforeDoubt")}^2+${at("afterDoubt")}^2),"")`,
    ),
    resultColumn(
      "amount",
      "Is the amount known?",
      "",
      11,
      "general",
      (at) =>
        `=IF(COUNT(${at("known")},${at("difference")})<2,"",IF(ABS(${at("difference")})>${at("known")},"${AMOUNTS.known}","${AMOUNTS.unknown}"))`,
    ),
    percentColumn("beforePercent", "Percent before", "beforeFlow"),
    verdictColumn("beforeVerdict", "Verdict before", ["beforeFlow", "beforeDoubt"], before),
    percentColumn("afterPercent", "Percent after", "afterFlow"),
    verdictColumn("afterVerdict", "Verdict after", ["afterFlow", "afterDoubt"], after),
  ];
}

/**
 * One row an outlet: the same face before and after the work, and both questions answered.
 *
 * @param sweeps - How many columns for sweeps, before and after each
 */
export function changesTable(suffix: string, sweeps: number): TableSpec {
  const message =
    "One slow sweep over the whole grille, or the average of its points; repeat it. 0 is a dead outlet, empty is not measured.";
  const columns: readonly ColumnSpec[] = [
    outletColumn,
    systemColumn,
    roomColumn,
    kindColumn,
    widthColumn,
    heightColumn,
    factorColumn,
    designColumn,
    ...readingColumns(sweeps, "B", "Sweep before", message),
    ...readingColumns(sweeps, "A", "Sweep after", message),
    ...results(sweeps),
    noteColumn,
  ];
  return { name: `Changes${suffix}`, columns, headerRow: 6, rowCount: 30 };
}
