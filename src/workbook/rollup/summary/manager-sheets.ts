import type { UnitSystemName } from "../../../core/index.js";
import { airflowUnit } from "../../job/index.js";
import type { ChartPlan, RowContent } from "../../template/sheet-plan.js";
import type { GroupResult } from "../group-result.js";
import type { InstrumentResult } from "../instruments.js";
import type { NameVariant } from "../names.js";
import type { Tally } from "../tally.js";
import type { TrendResult } from "../trend.js";
import type { Visit, VisitedJob } from "../visits.js";
import { figureColumns, HEADER, JOB_HEADER, shownAirflow } from "./figure-columns.js";
import type { ReportColumn } from "./report-table.js";
import { type TableReport, tableReport, textColumn, wrappedColumn } from "./table-report.js";

function countColumn<T>(header: string, of: (thing: T) => number): ReportColumn<T> {
  return { header, unit: "", width: 9.5, format: "thousands", style: "result", of };
}

function percentColumn<T>(header: string, of: (thing: T) => number | null): ReportColumn<T> {
  return { header, unit: "%", width: 10, format: "oneDecimal", style: "result", of };
}

/** One row a meter, with how its calibration stood on the days of the readings. */
export function instrumentsSheet(
  instruments: readonly InstrumentResult[],
  units: UnitSystemName,
  calibrationMonths: number,
): TableReport {
  const columns: readonly ReportColumn<InstrumentResult>[] = [
    textColumn("Serial number", 20, ({ serial, instrument }) => serial || (instrument === "" ? "not stated" : null)),
    textColumn("Instrument", 26, ({ instrument }) => instrument || null),
    textColumn("Calibrated on", 22, ({ calibrations }) => calibrations.join(", ") || "not stated"),
    textColumn("Calibration due", 22, ({ dueDays }) => dueDays.join(", ") || "not stated"),
    textColumn("First reading", 11, ({ firstDay }) => firstDay),
    textColumn("Last reading", 11, ({ lastDay }) => lastDay),
    textColumn("Calibration", 42, calibrationWords),
    countColumn("Jobs", ({ jobs }) => jobs),
    countColumn("Jobs expired", ({ jobsByState }) => jobsByState.expired),
    ...figureColumns(units),
  ];
  const lead = `One row per meter. A calibration holds until it is due, or ${calibrationMonths} months where no day is stated. Findings names each job where it did not hold on the days of the readings.`;
  return tableReport("Instruments", lead, columns, instruments, null, "Jobs expired");
}

function calibrationWords({ jobsByState }: InstrumentResult): string {
  const { valid, expired, "later than the readings": later, "not stated": unknown } = jobsByState;
  const parts = [
    [expired, "expired"],
    [later, "after the readings"],
    [unknown, "not stated"],
  ] as const;
  const wrong = parts.flatMap(([count, word]) => (count > 0 ? [`${word}: ${count}`] : []));
  return wrong.length === 0 ? "valid" : [...wrong, ...(valid > 0 ? [`valid: ${valid}`] : [])].join(", ");
}

/** How the share within limits goes, month by month: all technicians together, then each. */
export function trendSheet(trend: readonly TrendResult[], units: UnitSystemName): TableReport {
  const unit = airflowUnit(units);
  const flow = (header: string, of: (row: TrendResult) => number): ReportColumn<TrendResult> => ({
    header,
    unit,
    width: 11,
    format: "thousands",
    style: "result",
    of: (row) => shownAirflow(of(row), units),
  });
  const columns: readonly ReportColumn<TrendResult>[] = [
    textColumn("Month", 12, ({ month }) => month || "not dated"),
    textColumn("Technician", 20, ({ technician }) => (technician === null ? "all" : technician || "not named")),
    countColumn("Jobs", ({ jobs }) => jobs),
    countColumn("Outlets judged", ({ judged }) => judged),
    countColumn(HEADER.within, ({ within }) => within),
    percentColumn(HEADER.withinShare, ({ withinPercent }) => withinPercent),
    percentColumn("From", ({ interval }) => interval?.fromPercent ?? null),
    percentColumn("To", ({ interval }) => interval?.toPercent ?? null),
    flow(HEADER.design, ({ designCfm }) => designCfm),
    flow(HEADER.measured, ({ measuredCfm }) => measuredCfm),
    percentColumn(HEADER.percent, ({ percent }) => percent),
  ];
  const lead =
    "Share within limits by month: all technicians, then each. From and to: where the true share may be (95 %). Few outlets tell little.";
  const report = tableReport("Trend", lead, columns, trend, null, HEADER.percent);
  const months = trend.filter(({ technician }) => technician === null).length;
  if (months < 2) return report;
  const { sheet, block } = report;
  const print = {
    ...sheet.print,
    area: `A1:${CHART_END}${Math.max(block.lastRow, CHART_LAST_ROW)}`,
    // The chart alone is on the second page.
    sideBySide: { breakAfter: [block.lastColumn], repeatedColumns: null, scalePercent: 75 },
  };
  return { ...report, sheet: { ...sheet, print, charts: [trendChart(report, months)] } };
}

/** Where the chart beside the table ends; it is printed on a page of its own. */
const CHART_END = "X";
const CHART_LAST_ROW = 25;

function trendChart({ block }: TableReport, months: number): ChartPlan {
  const ofMonths = (header: string) => {
    const range = block.rangeOf(header);
    const [, letters = "A", first = "1"] = /^\$([A-Z]+)\$(\d+)/.exec(range) ?? [];
    return `Trend!$${letters}$${first}:$${letters}$${Number(first) + months - 1}`;
  };
  return {
    title: "Share of outlets within limits, by month",
    categories: ofMonths("Month"),
    bars: [{ name: "Within limits", values: ofMonths(HEADER.withinShare) }],
    lines: [
      { name: "From (95 %)", values: ofMonths("From") },
      { name: "To (95 %)", values: ofMonths("To") },
    ],
    categoryAxisTitle: "Month of the readings",
    valueAxisTitle: "Percent of outlets",
    from: "M4",
    to: `${CHART_END}${CHART_LAST_ROW}`,
    description:
      "A bar for each month shows the share of outlets within limits, two lines where the true share may be.",
  };
}

/** Names that look alike and count apart, and those that are merged. */
export function namesSheet(names: readonly NameVariant[]): TableReport {
  const columns: readonly ReportColumn<NameVariant>[] = [
    textColumn("Kind", 12, ({ kind }) => kind),
    textColumn("Found", 24, ({ name }) => name),
    textColumn("Counts as", 24, ({ countsAs, name }) => countsAs ?? name),
    textColumn("Looks like", 24, ({ like }) => like),
    wrappedColumn("Why", 40, ({ why }) => why),
    countColumn("Jobs", ({ jobs }) => jobs),
    countColumn("Outlets", ({ outlets }) => outlets),
  ];
  const lead =
    "Nothing is merged by itself. To merge, keep a table with the first three columns and name it with --names.";
  return tableReport("Names", lead, columns, names, null);
}

/** First against last visit, and as found against as left. */
export function visitsSheet(visits: readonly VisitedJob[], units: UnitSystemName): TableReport {
  const unit = airflowUnit(units);
  const first = (of: (visit: Visit) => number | null) => (job: VisitedJob) =>
    job.first === null ? null : of(job.first);
  const last = (of: (visit: Visit) => number | null) => (job: VisitedJob) => of(job.last);
  const percentOf = ({ result }: Visit) => result.percent;
  const withinOf = ({ result }: Visit) => result.withinPercent;
  const flow = (header: string, of: (result: GroupResult) => number): ReportColumn<VisitedJob> => ({
    header,
    unit,
    width: 11,
    format: "thousands",
    style: "result",
    of: ({ last: { result } }) => (result.changed.outlets === 0 ? null : shownAirflow(of(result), units)),
  });
  const judged = (header: string, of: (changed: Tally["changed"]) => number): ReportColumn<VisitedJob> => ({
    ...countColumn<VisitedJob>(header, () => 0),
    of: ({ last: { result } }) => (result.changed.judged === 0 ? null : of(result.changed)),
  });
  const columns: readonly ReportColumn<VisitedJob>[] = [
    textColumn(JOB_HEADER.number, 14, ({ jobNumber }) => jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ jobName }) => jobName || null),
    countColumn("Visits", ({ visits: count }) => count),
    textColumn("First visit", 11, ({ first: visit }) => visit?.date ?? null),
    { ...countColumn<VisitedJob>("First compared", () => 0), of: first(({ result }) => result.compared) },
    percentColumn("First percent", first(percentOf)),
    percentColumn("First within limits", first(withinOf)),
    textColumn("Last visit", 11, ({ last: visit }) => visit.date),
    countColumn("Last compared", ({ last: { result } }) => result.compared),
    percentColumn("Last percent", last(percentOf)),
    percentColumn("Last within limits", last(withinOf)),
    countColumn("Found and left", ({ last: { result } }) => result.changed.outlets),
    judged("Judged both times", (changed) => changed.judged),
    judged("Within as found", ({ withinBefore }) => withinBefore),
    judged("Within as left", ({ withinAfter }) => withinAfter),
    judged("Brought within", ({ broughtWithin }) => broughtWithin),
    judged("Fallen out", ({ withinBefore, withinAfter, broughtWithin }) => withinBefore - withinAfter + broughtWithin),
    flow(HEADER.before, ({ changed }) => changed.beforeCfm),
    flow(HEADER.after, ({ changed }) => changed.afterCfm),
    {
      header: HEADER.change,
      unit: "%",
      width: 10,
      format: "signed",
      style: "result",
      of: ({ last: { result } }, at): RowContent => {
        const [before, after] = [at(HEADER.before), at(HEADER.after)];
        const formula = `=IF(COUNT(${before},${after})=2,IF(${before}>0,(${after}-${before})/${before}*100,""),"")`;
        return { formula, result: result.changePercent };
      },
    },
    wrappedColumn("First workbook", 46, ({ first: visit }) => visit?.file ?? null),
    wrappedColumn("Workbook", 46, ({ last: visit }) => visit.file),
  ];
  const lead =
    "Jobs with workbooks of several days, first against last; and verdicts and airflow as found and as left in the last one.";
  return tableReport("Visits", lead, columns, visits, null, "Last within limits");
}
