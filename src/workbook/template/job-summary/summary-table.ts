import { OUTLET_KINDS } from "../../lists/index.js";
import { jobCell } from "../job-sheet.js";
import { limitsFor, UNITS, unit, verdictByRule } from "../plain-formulas.js";
import { type InputRule, listInput, numberInput, sizeInput, textInput } from "../plan-parts.js";
import type { FormatName, StyleName } from "../style.js";
import type { ColumnSpec, RowCell, TableSpec } from "../table-block.js";
import { JOB_SUMMARY_COLUMNS, JOB_SUMMARY_TABLE, type JobSummaryKey } from "./columns.js";

interface Layout {
  readonly width: number;
  readonly unit: string;
  readonly format: FormatName;
  readonly style: StyleName;
  readonly fill: InputRule | ((at: RowCell) => string);
}

const cfm = unit("cfm", "L/s");
const inches = unit("in", "mm");

function text(width: number, fill: Layout["fill"]): Layout {
  return { width, unit: "", format: "general", style: typeof fill === "function" ? "resultText" : "inputText", fill };
}

function number(width: number, unitText: string, format: FormatName, fill: Layout["fill"]): Layout {
  return { width, unit: unitText, format, style: typeof fill === "function" ? "result" : "input", fill };
}

/** A job detail, shown in rows that name an outlet. */
function fromJob(key: string): (at: RowCell) => string {
  return (at) => `=IF(${at("outlet")}="","",IF(${jobCell(key)}="","",${jobCell(key)}))`;
}

/** The last airflow measured: as left where there is one, as found otherwise. */
function last(at: RowCell): string {
  return `IF(COUNT(${at("after")})=1,${at("after")},${at("before")})`;
}

function measuredOnce(at: RowCell, formula: string): string {
  return `=IF(COUNT(${at("before")},${at("after")})=0,"",IF(${at("design")}="","",${formula}))`;
}

/** 1 as soon as one of both is there: COUNT of the cell that is taken. */
const taken = (at: RowCell) => `MIN(1,COUNT(${at("before")},${at("after")}))`;
const airflow = (title: string, message: string) => numberInput(title, message, null, null);

const LAYOUTS: Readonly<Record<JobSummaryKey, Layout>> = {
  jobId: text(12, fromJob("id")),
  jobName: text(20, fromJob("jobName")),
  date: { ...text(12, fromJob("date")), format: "date" },
  technician: text(16, fromJob("technician")),
  system: text(10, textInput("System", "The fan or unit that serves it.", 40)),
  room: text(15, textInput("Room", "The room, spelled the same in every row.", 40)),
  outlet: text(9, textInput("Outlet", "A tag that is used once in the job.", 30)),
  kind: text(10, listInput("Kind", "supply, return, exhaust or outside air.", OUTLET_KINDS)),
  shape: text(12, (at) => `=IF(${at("width")}="","",IF(${at("height")}="","round","rectangular"))`),
  width: number(8, inches, "general", sizeInput("Width", "Clear width, or the diameter of a round outlet.")),
  height: number(8, inches, "general", sizeInput("Height", "Clear height; empty for a round outlet.")),
  factor: number(7, "ratio", "general", numberInput("Factor", "The free-area factor that was used.", 0.01, 1)),
  assumed: text(9, listInput("Factor assumed", "yes where nobody published it.", ["yes", "no"])),
  units: text(7, (at) => `=IF(${at("outlet")}="","",${UNITS})`),
  design: number(9, cfm, "general", numberInput("Design airflow", "What the design asks of this outlet.", 0.01, null)),
  before: number(
    10,
    cfm,
    "oneDecimal",
    airflow("Measured before", "The airflow as found, before an adjustment. Empty where not measured."),
  ),
  after: number(
    10,
    cfm,
    "oneDecimal",
    airflow("Measured after", "The airflow as left. Empty where nothing was adjusted."),
  ),
  plusMinus: number(
    8,
    cfm,
    "oneDecimal",
    numberInput("Plus or minus", "How well the last airflow is known, from its own sheet.", 0, null),
  ),
  percent: number(9, "%", "oneDecimal", (at) =>
    measuredOnce(at, `VANE.DESIGN.PERCENT(${last(at)},${at("design")},${taken(at)})`),
  ),
  verdict: {
    ...text(10, (at) => {
      const verdict = verdictByRule(last(at), at("design"), at("plusMinus"), limitsFor(at("kind")));
      return `=IF(COUNT(${at("percent")})=0,"",${verdict})`;
    }),
    style: "resultCenter",
  },
  note: text(22, textInput("Note", "Free text.", 200)),
};

function column(key: JobSummaryKey, header: string): ColumnSpec {
  const { fill, ...layout } = LAYOUTS[key];
  if (typeof fill === "function") return { kind: "result", key, header, ...layout, formula: fill };
  return { kind: "input", key, header, ...layout, rule: fill };
}

/** The table that a roll-up reads: fixed columns, one row an outlet. */
export function summaryTable(suffix: string): TableSpec {
  return {
    name: `${JOB_SUMMARY_TABLE}${suffix}`,
    columns: JOB_SUMMARY_COLUMNS.map(({ key, header }) => column(key, header)),
    headerRow: 9,
    rowCount: 60,
  };
}
