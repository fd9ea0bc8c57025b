import { EMPTY_SHEET } from "../../template/plan-parts.js";
import type { ChartPlan, SheetPlan } from "../../template/sheet-plan.js";
import { PERCENT_BINS } from "../percent-bins.js";
import type { RollUp } from "../roll-up.js";
import { HEADER } from "./figure-columns.js";
import { joined, reportCell } from "./report-table.js";
import type { SummaryDetails } from "./summary-details.js";
import { FIRST_LINE_ROW, summaryLines } from "./summary-lines.js";
import type { ReportSheet, TableReport } from "./table-report.js";

export const TITLE = "Roll-up of jobs";
const FIRST_BIN_ROW = 30;
const LAST_BIN_ROW = FIRST_BIN_ROW + PERCENT_BINS.length - 1;

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
      description: "Outlets by percent of design.",
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
      description: "Share of measured outlets within limits, by month.",
    },
  ];
}

/** The first sheet: all jobs in one column, their distribution, and the charts. */
export function summarySheet(
  rolled: RollUp,
  jobs: TableReport,
  months: TableReport,
  skipped: number,
  details: SummaryDetails,
): ReportSheet {
  const figures = summaryLines(rolled, jobs, skipped, details.units).map(({ label, content, unit, format }, index) => {
    const row = FIRST_LINE_ROW + index;
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
