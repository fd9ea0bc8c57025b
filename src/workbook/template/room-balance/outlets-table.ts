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
import {
  areaColumn,
  basisColumn,
  designVelocityColumn,
  faceAirflow,
  freeAreaColumn,
  percentColumn,
  plusMinusColumn,
  resultColumn,
  shownDesignVelocityColumn,
  timesVelocityFactor,
  velocityFactorColumn,
} from "../face-results.js";
import { jobCell } from "../job-sheet.js";
import {
  asStandardAir,
  decisionOf,
  doubtPercent,
  factorDoubt,
  GAPS,
  limitsFor,
  pointsOf,
  unit,
  verdictByRule,
} from "../plain-formulas.js";
import { offeredInput } from "../plan-parts.js";
import { type ColumnSpec, type InputColumn, type RowCell, type TableSpec, tablePlaces } from "../table-block.js";
import { type TemplateOptions, USUAL_POINTS } from "../template-options.js";
import { AREA_RESULTS, hasPublished, PUBLISHED_AREA_COLUMNS, throughPublished } from "./area-columns.js";
import type { BalanceColumns } from "./balance-columns.js";
import { drawOf } from "./retest-draw.js";
import { shareColumns } from "./share-columns.js";
import { type NamedInstruments, visitColumns } from "./visit-columns.js";

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

/** Spells the airflow of a row from its readings. */
export type AirflowOf = (at: RowCell, readings: string) => string;

const noSizeOf = (hasAreas: boolean) => (at: RowCell) =>
  hasAreas ? `AND(${at("width")}="",NOT(${hasPublished(at)}))` : `${at("width")}=""`;

/** By size and factor, by a published area where there are some, and by the meter of the job. */
function airflowOf(hasAreas: boolean, isThermal: boolean): AirflowOf {
  return (at, readings) => {
    const bySize = faceAirflow(at, readings);
    const flow = hasAreas ? throughPublished(at, readings, bySize) : bySize;
    return isThermal ? timesVelocityFactor(at, flow, readings, noSizeOf(hasAreas)(at)) : flow;
  };
}

/** What follows from the readings of a row. */
function results(
  readings: (at: RowCell) => string,
  flowOf: AirflowOf,
  hasAreas: boolean,
  isThermal: boolean,
): readonly ColumnSpec[] {
  const noSize = noSizeOf(hasAreas);
  const doubtOf = (at: RowCell) => {
    const byFactor = factorDoubt(at("factor"));
    return hasAreas ? `IF(${hasPublished(at)},${jobCell("factorDoubt")},${byFactor})` : byFactor;
  };
  return [
    ...(hasAreas ? AREA_RESULTS : [areaColumn, basisColumn, freeAreaColumn]),
    ...(isThermal ? [velocityFactorColumn, shownDesignVelocityColumn] : [designVelocityColumn]),
    resultColumn(
      "velocity",
      "Average velocity",
      unit("fpm", "m/s"),
      9,
      "oneDecimal",
      (at) => `=IF(COUNT(${readings(at)})=0,"",VANE.TRAVERSE.AVERAGE(${readings(at)},COUNT(${readings(at)})))`,
    ),
    resultColumn("airflow", "Airflow", unit("cfm", "L/s"), 9, "oneDecimal", (at) => flowOf(at, readings(at))),
    resultColumn(
      "doubt",
      "± percent (95 %)",
      "%",
      8,
      "oneDecimal",
      (at) => `=${doubtPercent(`COUNT(${readings(at)})>0`, doubtOf(at), pointsOf(readings(at)))}`,
    ),
    plusMinusColumn,
    resultColumn(
      "standardFlow",
      headingOf("standardAirflow"),
      unit("cfm", "L/s"),
      9,
      "oneDecimal",
      (at) => `=${asStandardAir(at("airflow"))}`,
    ),
    percentColumn,
    resultColumn("verdict", "Verdict", "", 10, "general", (at) => {
      const judged = verdictByRule(at("airflow"), at("design"), at("plusMinus"), limitsFor(at("kind")));
      const verdict = isThermal ? `IF(COUNT(${at("velocityFactor")})=0,"${GAPS.noDensity}",${judged})` : judged;
      return `=IF(COUNT(${readings(at)})=0,"",IF(${noSize(at)},"${GAPS.noSize}",IF(${at("design")}="","${GAPS.noDesign}",IF(${at("age")}="${OLD_READING}","${GAPS.old}",${verdict}))))`;
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
}

/** What the table of outlets names on other sheets. */
export interface OutletSources extends Pick<BalanceColumns, "rooms" | "systems"> {
  /** Names of the sheets of rooms and systems. */
  readonly names: { readonly rooms: string; readonly systems: string };
  /** Where the meters of the job are named; null where the workbook lists none. */
  readonly instruments: NamedInstruments | null;
  /** The cell of the witness's seed. */
  readonly seed: string;
}

/**
 * One row an outlet: what it is, its size and factor, the readings, and what follows from them.
 *
 * @param points - How many columns for readings
 */
export function outletsTable(
  name: string,
  sources: OutletSources,
  { points = USUAL_POINTS["room-balance"], blocks = [] }: TemplateOptions,
): TableSpec {
  const { rooms, systems, names, seed } = sources;
  const hasAreas = blocks.includes("areas");
  const isThermal = blocks.includes("thermal");
  const flowOf = airflowOf(hasAreas, isThermal);
  const readings = (at: RowCell) => `${at("R1")}:${at(`R${points}`)}`;
  const columns: readonly ColumnSpec[] = [
    outletColumn,
    offered(
      "system",
      "System",
      9,
      "The fan or unit that serves it, as on the sheet of systems.",
      systems("system"),
      names.systems,
    ),
    offered("room", "Room", 16, "The room, spelled as on the sheet of rooms.", rooms("room"), names.rooms),
    kindColumn,
    makeColumn,
    widthColumn,
    heightColumn,
    factorColumn,
    ...(hasAreas ? PUBLISHED_AREA_COLUMNS : []),
    ...(blocks.includes("shares") ? shareColumns(rooms, () => tablePlaces(spec).fixedRangeOf) : [designColumn]),
    ...readingColumns(
      points,
      "R",
      "Reading",
      "One velocity at the grille. Spread the readings over equal parts of it; 0 is a dead spot, empty is not measured.",
    ),
    ageColumn,
    ...results(readings, flowOf, hasAreas, isThermal),
    ...(blocks.includes("visits") ? visitColumns(points, sources.instruments, flowOf) : []),
    resultColumn("draw", headingOf("draw"), "", 9, "general", (at) => drawOf(at("outlet"), at("airflow"), seed)),
    noteColumn,
  ];
  const spec: TableSpec = { name, columns, headerRow: 8, rowCount: 30 };
  return spec;
}
