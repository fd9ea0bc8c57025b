import {
  designColumn,
  factorColumn,
  heightColumn,
  kindColumn,
  makeColumn,
  noteColumn,
  outletColumn,
  readingColumns,
  roomColumn,
  systemColumn,
  widthColumn,
} from "../common-columns.js";
import {
  areaColumn,
  basisColumn,
  designVelocityColumn,
  freeAreaColumn,
  percentColumn,
  plusMinusColumn,
  resultColumn,
} from "../face-results.js";
import { jobCell } from "../job-sheet.js";
import { AIRFLOW_SCALE, factorDoubt, GAPS, JOB_REPEAT, limitsFor, unit, verdictByRule } from "../plain-formulas.js";
import { numberInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell, TableSpec } from "../table-block.js";

/** The cell over the table that says how near sweeps must come to each other. */
export const AGREE_CELL = "$B$5";

export const AGREEMENT = { agree: "agree", repeat: "repeat", once: "one sweep" } as const;

/** Spells the cells of a row's sweeps. */
interface SweepCells {
  readonly velocities: (at: RowCell) => string;
  readonly seconds: (at: RowCell) => string;
  /** True where each sweep has its time. */
  readonly complete: (at: RowCell) => string;
}

function sweepCells(sweeps: number): SweepCells {
  const block = (prefix: string) => (at: RowCell) => `${at(`${prefix}1`)}:${at(`${prefix}${sweeps}`)}`;
  const [velocities, seconds] = [block("V"), block("s")];
  return { velocities, seconds, complete: (at) => `COUNT(${velocities(at)})=COUNT(${seconds(at)})` };
}

function secondsColumns(sweeps: number): readonly InputColumn[] {
  const rule = numberInput("Seconds", "How long this sweep lasted.", 1, 3600);
  return readingColumns(sweeps, "s", "", "").map((column) => ({ ...column, unit: "s", width: 6, rule }));
}

/** The uncertainty of the mean from the sweeps themselves where there are two or more, the job's figure otherwise. */
function doubt(at: RowCell, velocities: (at: RowCell) => string): string {
  const taken = `COUNT(${velocities(at)})`;
  const shared = `${jobCell("instrumentDoubt")},${factorDoubt(at("factor"))},${jobCell("areaDoubt")}`;
  const scatter = `STDEV(${velocities(at)})/SQRT(${taken})`;
  const own = `MAX(${scatter},${jobCell("resolution")}/SQRT(12))/AVERAGE(${velocities(at)})*100`;
  const fromSweeps = `VANE.UNCERTAINTY.AIRFLOW(100,${shared},MAX(${own},0.000001),${taken})`;
  const stated = `VANE.UNCERTAINTY.AIRFLOW(100,${shared},${JOB_REPEAT})`;
  return `=IF(${taken}=0,"",IF(AND(${taken}>1,AVERAGE(${velocities(at)})>0),${fromSweeps},${stated}))`;
}

/** What follows from the sweeps of a row. */
function results({ velocities, seconds, complete }: SweepCells): readonly ColumnSpec[] {
  return [
    resultColumn(
      "velocity",
      "Average velocity",
      unit("fpm", "m/s"),
      8,
      "oneDecimal",
      (at) =>
        `=IF(OR(COUNT(${velocities(at)})=0,NOT(${complete(at)})),"",VANE.SWEEP.AVERAGE(${velocities(at)},${seconds(at)},COUNT(${velocities(at)})))`,
    ),
    resultColumn(
      "range",
      "Sweeps differ by",
      "%",
      8,
      "oneDecimal",
      (at) =>
        `=IF(COUNT(${velocities(at)})<2,"",IF(AVERAGE(${velocities(at)})>0,(MAX(${velocities(at)})-MIN(${velocities(at)}))/AVERAGE(${velocities(at)})*100,""))`,
    ),
    resultColumn(
      "agreement",
      "Sweeps",
      "",
      10,
      "general",
      (at) =>
        `=IF(COUNT(${velocities(at)})=0,"",IF(NOT(${complete(at)}),"${GAPS.noTime}",IF(COUNT(${velocities(at)})=1,"${AGREEMENT.once}",IF(COUNT(${at("range")})=0,"",IF(${at("range")}<=${AGREE_CELL},"${AGREEMENT.agree}","${AGREEMENT.repeat}")))))`,
    ),
    areaColumn,
    basisColumn,
    freeAreaColumn,
    designVelocityColumn,
    resultColumn(
      "airflow",
      "Airflow",
      unit("cfm", "L/s"),
      9,
      "oneDecimal",
      (at) => `=IF(COUNT(${at("velocity")},${at("free")})=2,${at("velocity")}*${at("free")}*${AIRFLOW_SCALE},"")`,
    ),
    resultColumn("doubt", "± percent (95 %)", "%", 8, "oneDecimal", (at) => doubt(at, velocities)),
    plusMinusColumn,
    percentColumn,
    resultColumn("verdict", "Verdict", "", 10, "general", (at) => {
      const verdict = verdictByRule(at("airflow"), at("design"), at("plusMinus"), limitsFor(at("kind")));
      return `=IF(COUNT(${velocities(at)})=0,"",IF(NOT(${complete(at)}),"${GAPS.noTime}",IF(${at("width")}="","${GAPS.noSize}",IF(${at("design")}="","${GAPS.noDesign}",${verdict}))))`;
    }),
  ];
}

/**
 * One row a face: its timed sweeps, how well they agree, and what follows from their mean.
 *
 * @param sweeps - How many columns for sweeps
 */
export function sweepsTable(suffix: string, sweeps: number): TableSpec {
  const columns: readonly ColumnSpec[] = [
    outletColumn,
    systemColumn,
    roomColumn,
    kindColumn,
    makeColumn,
    widthColumn,
    heightColumn,
    factorColumn,
    designColumn,
    ...readingColumns(
      sweeps,
      "V",
      "Velocity of a sweep",
      "The average that the meter shows after one slow sweep over the whole grille. 0: no flow at all. Empty: not swept.",
    ),
    ...secondsColumns(sweeps),
    ...results(sweepCells(sweeps)),
    noteColumn,
  ];
  return { name: `Sweeps${suffix}`, columns, headerRow: 8, rowCount: 30 };
}
