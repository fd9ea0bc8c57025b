import type { CalculatedValues } from "../../plan-file/index.js";
import { EMPTY_SHEET } from "../../template/plan-parts.js";
import type { ChartPlan, SheetPlan, WorkbookPlan } from "../../template/sheet-plan.js";
import type { FormatName } from "../../template/style.js";
import type { RollUpIssue } from "../issue.js";
import type { UnitSystem } from "../outlet-record.js";
import { PERCENT_BINS } from "../percent-bins.js";
import type { RollUp } from "../roll-up.js";
import { airflowUnit, HEADER, shownAirflow } from "./figure-columns.js";
import { SUMMARY_NOTES } from "./notes.js";
import {
  findingsSheet,
  groupSheet,
  jobsSheet,
  notesReport,
  type ReportSheet,
  skippedSheet,
  type TableReport,
} from "./report-sheets.js";
import { joined, type ReportContent, reportCell } from "./report-table.js";

/** What a summary says of itself. */
export interface SummaryDetails {
  /** The units in which airflow is shown. */
  readonly units: UnitSystem;
  /** Where the jobs came from and when, in a sentence. */
  readonly about: string;
}

/** A summary as data, and the results of its formulas. */
export interface SummaryWorkbook {
  readonly plan: WorkbookPlan;
  readonly values: CalculatedValues;
}

const TITLE = "Roll-up of jobs";
const FIRST_ROW = 5;
const FIRST_BIN_ROW = 30;
const LAST_BIN_ROW = FIRST_BIN_ROW + PERCENT_BINS.length - 1;

interface Line {
  readonly label: string;
  readonly content: ReportContent;
  readonly unit: string;
  readonly format: FormatName;
}

/** The whole of it in one column, each figure a formula over the sheet of jobs. */
function lines({ jobs, total }: RollUp, table: TableReport, skipped: number, units: UnitSystem): readonly Line[] {
  const range = (header: string) => `Jobs!${table.block.rangeOf(header)}`;
  const at = (label: string) => `$B$${FIRST_ROW + LABELS.indexOf(label)}`;
  const unit = airflowUnit(units);
  const count = (label: string, header: string, result: number): Line => ({
    label,
    content: { formula: `=SUM(${range(header)})`, result },
    unit: "",
    format: "thousands",
  });
  const flow = (label: string, formula: string, resultCfm: number | null): Line => ({
    label,
    content: { formula, result: shownAirflow(resultCfm, units) },
    unit,
    format: "thousands",
  });
  const allStated = (header: string, combined: string) =>
    `=IF(AND(COUNT(${range(header)})>0,COUNT(${range(header)})=COUNTIF(${range(HEADER.compared)},">0")),${combined},"")`;
  const judged = `(${at("Outlets low")}+${at("Outlets within")}+${at("Outlets high")})`;
  const percent = (label: string, formula: string, result: number | null, format: FormatName = "oneDecimal"): Line => ({
    label,
    content: { formula, result },
    unit: "%",
    format,
  });
  return [
    {
      label: "Jobs",
      content: { formula: `=COUNTA(${range("Workbook")})`, result: jobs.length },
      unit: "",
      format: "thousands",
    },
    { label: "Workbooks left out", content: skipped, unit: "", format: "thousands" },
    count("Outlets listed", HEADER.outlets, total.outlets),
    count("Outlets compared", HEADER.compared, total.compared),
    count("Outlets not measured", HEADER.notMeasured, total.notMeasured),
    count("Outlets without design", HEADER.noDesign, total.noDesign),
    count("Outlets faulty", HEADER.faulty, total.faulty),
    count("Outlets low", HEADER.low, total.low),
    count("Outlets within", HEADER.within, total.within),
    count("Outlets high", HEADER.high, total.high),
    percent("Share within limits", `=IF(${judged}>0,${at("Outlets within")}/${judged}*100,"")`, total.withinPercent),
    flow("Design of those compared", `=SUM(${range(HEADER.design)})`, total.designCfm),
    flow("Measured", `=SUM(${range(HEADER.measured)})`, total.measuredCfm),
    percent(
      "Percent of design",
      `=IF(${at("Design of those compared")}>0,${at("Measured")}/${at("Design of those compared")}*100,"")`,
      total.percent,
    ),
    flow(HEADER.shared, allStated(HEADER.shared, `SUM(${range(HEADER.shared)})`), total.sharedPlusMinusCfm),
    flow(
      HEADER.independent,
      allStated(HEADER.independent, `SQRT(SUMSQ(${range(HEADER.independent)}))`),
      total.independentPlusMinusCfm,
    ),
    count("Outlets before and after", HEADER.changed, total.changed.outlets),
    flow("As found, of those", `=SUM(${range(HEADER.before)})`, total.changed.beforeCfm),
    flow("As left, of those", `=SUM(${range(HEADER.after)})`, total.changed.afterCfm),
    percent(
      "Change",
      `=IF(${at("As found, of those")}>0,(${at("As left, of those")}-${at("As found, of those")})/${at("As found, of those")}*100,"")`,
      total.changePercent,
      "signed",
    ),
  ];
}

/** The labels in their order, by which the formulas find each other. */
const LABELS: readonly string[] = [
  "Jobs",
  "Workbooks left out",
  "Outlets listed",
  "Outlets compared",
  "Outlets not measured",
  "Outlets without design",
  "Outlets faulty",
  "Outlets low",
  "Outlets within",
  "Outlets high",
  "Share within limits",
  "Design of those compared",
  "Measured",
  "Percent of design",
  HEADER.shared,
  HEADER.independent,
  "Outlets before and after",
  "As found, of those",
  "As left, of those",
  "Change",
];

function charts(months: TableReport): readonly ChartPlan[] {
  const bins = (column: string) => `Summary!$${column}$${FIRST_BIN_ROW}:$${column}$${LAST_BIN_ROW}`;
  return [
    {
      title: "Outlets by percent of design",
      categories: bins("A"),
      bars: [{ name: "Outlets", values: bins("B") }],
      lines: [],
      categoryAxisTitle: "Percent of design",
      valueAxisTitle: "Outlets",
      from: "E4",
      to: "P25",
      description: "A bar for each class of percent of design shows how many outlets of all jobs lie in it.",
    },
    {
      title: "Share of outlets within limits, by month",
      categories: `Months!${months.block.rangeOf("Month")}`,
      bars: [{ name: "Within limits", values: `Months!${months.block.rangeOf(HEADER.withinShare)}` }],
      lines: [],
      categoryAxisTitle: "Month of the readings",
      valueAxisTitle: "Percent of outlets",
      from: "E28",
      to: "P51",
      description:
        "A bar for each month shows what share of the outlets measured in it is within the limits of its job.",
    },
  ];
}

function summarySheet(
  rolled: RollUp,
  jobs: TableReport,
  months: TableReport,
  skipped: number,
  details: SummaryDetails,
): ReportSheet {
  const figures = lines(rolled, jobs, skipped, details.units).map(({ label, content, unit, format }, index) => {
    const row = FIRST_ROW + index;
    return joined(
      reportCell(`A${row}`, label, "label"),
      reportCell(`B${row}`, content, "result", format),
      reportCell(`C${row}`, unit === "" ? null : unit, "unit"),
    );
  });
  const bins = PERCENT_BINS.map(({ label }, index) =>
    joined(
      reportCell(`A${FIRST_BIN_ROW + index}`, label, "resultText"),
      reportCell(`B${FIRST_BIN_ROW + index}`, rolled.total.percentCounts[index] ?? 0, "result", "thousands"),
    ),
  );
  const all = joined(
    reportCell("A1", TITLE, "title"),
    reportCell("A2", details.about, "lead"),
    reportCell("A4", "All jobs", "section"),
    reportCell("B4", null, "section"),
    reportCell("C4", null, "section"),
    ...figures,
    reportCell(`A${FIRST_BIN_ROW - 2}`, "Distribution", "section"),
    reportCell(`B${FIRST_BIN_ROW - 2}`, null, "section"),
    reportCell(`C${FIRST_BIN_ROW - 2}`, null, "section"),
    reportCell(`A${FIRST_BIN_ROW - 1}`, "Percent of design", "header"),
    reportCell(`B${FIRST_BIN_ROW - 1}`, "Outlets", "header"),
    ...bins,
  );
  const sheet: SheetPlan = {
    ...EMPTY_SHEET,
    name: "Summary",
    role: "report",
    columnWidths: [26, 12, 6, 3, ...Array.from({ length: 12 }, () => 9)],
    rowHeights: { 1: 26 },
    cells: all.cells,
    charts: charts(months),
    print: { orientation: "landscape", area: `A1:P${LAST_BIN_ROW}`, repeatedRows: null, fitToPagesHigh: 1 },
  };
  return { ...all, sheet };
}

/**
 * Lays a roll-up out as a workbook: Summary with its charts, Jobs, Technicians, Months, Kinds, Skipped, Findings and
 * Notes. Sums and percents that a person may want to follow are formulas.
 */
export function summaryWorkbook(
  rolled: RollUp,
  issues: readonly RollUpIssue[],
  details: SummaryDetails,
): SummaryWorkbook {
  const { units } = details;
  const jobs = jobsSheet(rolled.jobs, units);
  const months = groupSheet(
    "Months",
    "Month",
    "not dated",
    "One row a month, by the date of each outlet's readings.",
    rolled.months,
    units,
  );
  const skipped = skippedSheet(issues);
  const skippedFiles = new Set(issues.filter(({ leftOut }) => leftOut === "file").map(({ file }) => file)).size;
  const reports: readonly ReportSheet[] = [
    summarySheet(rolled, jobs, months, skippedFiles, details),
    jobs,
    groupSheet(
      "Technicians",
      "Technician",
      "not named",
      "One row a technician, over all jobs.",
      rolled.technicians,
      units,
    ),
    months,
    groupSheet("Kinds", "Kind", "not given", "One row a kind of outlet, over all jobs.", rolled.kinds, units),
    skipped,
    findingsSheet(issues),
  ];
  return {
    plan: {
      title: TITLE,
      description: details.about,
      sheets: [...reports.map(({ sheet }) => sheet), notesReport("Notes", SUMMARY_NOTES)],
      names: [],
    },
    values: new Map(reports.map(({ sheet, results }) => [sheet.name, new Map(results)])),
  };
}
