import { type Cfm, litersPerSecondFromCfm } from "../../core/index.js";
import type { OutletRecord } from "./outlet-record.js";

/** What a column holds; every one of them may be empty. */
export type TidyType = "text" | "number" | "whole" | "boolean" | "date";

/** One column of the table with a row an outlet. */
export interface TidyColumn {
  readonly name: string;
  readonly type: TidyType;
  /** "" where it has none. */
  readonly unit: string;
  readonly meaning: string;
  /** The column's value for an outlet; a date as ISO 8601 spells it, null where there is nothing. */
  readonly of: (outlet: OutletRecord, file: string) => string | number | boolean | null;
}

function text(name: string, meaning: string, of: (outlet: OutletRecord, file: string) => string | null): TidyColumn {
  return { name, type: "text", unit: "", meaning, of: (outlet, file) => of(outlet, file) || null };
}

function number(name: string, unit: string, meaning: string, of: (outlet: OutletRecord) => number | null): TidyColumn {
  return { name, type: "number", unit, meaning, of };
}

/** An airflow in both units, so that either reads the same whatever a job was measured in. */
function airflow(name: string, meaning: string, of: (outlet: OutletRecord) => Cfm | null): readonly TidyColumn[] {
  return [
    number(`${name}_cfm`, "cfm", meaning, of),
    number(`${name}_lps`, "L/s", meaning, (outlet) => {
      const flowCfm = of(outlet);
      return flowCfm === null ? null : litersPerSecondFromCfm(flowCfm);
    }),
  ];
}

/**
 * The columns of the table with a row an outlet, in their fixed order.
 *
 * A column keeps its name and meaning for good; a new one goes behind the last.
 */
export const TIDY_COLUMNS: readonly TidyColumn[] = [
  text("file", "The workbook, as its path was found.", (_, file) => file),
  text("sheet", "The sheet in it.", ({ sheet }) => sheet),
  { name: "row", type: "whole", unit: "", meaning: "The row of the sheet.", of: ({ row }) => row },
  text("job_number", "The job as the office files it.", ({ jobNumber }) => jobNumber),
  text("job_name", "What the job is called.", ({ jobName }) => jobName),
  { name: "date", type: "date", unit: "", meaning: "The day of the last readings.", of: ({ date }) => date },
  text("technician", "Who took the readings.", ({ technician }) => technician),
  text("system", "The fan or unit that serves the outlet.", ({ system }) => system),
  text("room", "The room.", ({ room }) => room),
  text("outlet", "The outlet's tag.", ({ outlet }) => outlet),
  text("kind", "supply, return, exhaust or outside air; duct for a traverse.", ({ kind }) => kind),
  text(
    "status",
    "compared: has a design and an airflow, and counts in every sum; not measured; no design; faulty: it has an unusable value.",
    ({ status }) => status,
  ),
  number("width_in", "in", "Clear width or diameter.", ({ widthIn }) => widthIn),
  number("height_in", "in", "Clear height; empty for round.", ({ heightIn }) => heightIn),
  number("factor", "ratio", "Free-area factor that was used.", ({ factorRatio }) => factorRatio),
  {
    name: "factor_assumed",
    type: "boolean",
    unit: "",
    meaning: "Whether nobody published the factor.",
    of: ({ isFactorAssumed }) => isFactorAssumed,
  },
  text("units", "What the job was measured in: ip for cfm, si for L/s.", ({ units }) => units),
  ...airflow("design", "Design airflow.", ({ designCfm }) => designCfm),
  ...airflow("before", "Airflow as found, before an adjustment.", ({ beforeCfm }) => beforeCfm),
  ...airflow("after", "Airflow as left.", ({ afterCfm }) => afterCfm),
  ...airflow(
    "measured",
    "The last airflow: as left, or as found where nothing was adjusted.",
    ({ measuredCfm }) => measuredCfm,
  ),
  ...airflow("plus_minus", "± of the last airflow (95 %).", ({ plusMinusCfm }) => plusMinusCfm),
  number(
    "percent_of_design",
    "%",
    "Measured in percent of design; not for adding up or averaging.",
    ({ percent }) => percent,
  ),
  text(
    "verdict",
    "low, within or high, by the limits of the job; open where its guarded rule leaves it so.",
    ({ verdict }) => verdict,
  ),
  text("note", "Free text.", ({ note }) => note),
  text("instrument", "The meter, as the job states it.", ({ instrument }) => instrument),
  text("instrument_serial", "Its serial number.", ({ instrumentSerial }) => instrumentSerial),
  {
    name: "calibrated_on",
    type: "date",
    unit: "",
    meaning: "The day on its certificate.",
    of: ({ calibratedOn }) => calibratedOn,
  },
  text("customer", "For whom, where the workbook names it.", ({ customer }) => customer),
  text("site", "Where, where the workbook names it.", ({ site }) => site),
  text(
    "verdict_found",
    "The verdict of the airflow as found, where there is one as left too; by the same limits.",
    ({ foundVerdict }) => foundVerdict,
  ),
  {
    name: "calibration_due_on",
    type: "date",
    unit: "",
    meaning: "The last day on which the meter’s calibration holds, where the job states it.",
    of: ({ calibrationDueOn }) => calibrationDueOn,
  },
];

/** Columns that tables of earlier versions lack; they are read as empty. */
export const LATER_COLUMNS: ReadonlySet<string> = new Set(["verdict_found", "calibration_due_on"]);
