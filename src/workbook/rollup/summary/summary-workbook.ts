import type { Finding } from "../../finding.js";
import type { CalculatedValues } from "../../plan-file/index.js";
import type { WorkbookPlan } from "../../template/sheet-plan.js";
import type { RollUp } from "../roll-up.js";
import { changesSheet, findingsSheet, leftOutSheet } from "./finding-sheets.js";
import { groupSheet, jobsSheet, outliersSheet, systemsSheet, unfinishedSheet } from "./job-sheets.js";
import { instrumentsSheet, namesSheet, trendSheet, visitsSheet } from "./manager-sheets.js";
import { SUMMARY_NOTES } from "./notes.js";
import { notesReport } from "./notes-report.js";
import type { SummaryDetails } from "./summary-details.js";
import { summarySheet, TITLE } from "./summary-sheet.js";
import type { ReportSheet } from "./table-report.js";

/** A summary as data, and the results of its formulas. */
export interface SummaryWorkbook {
  readonly plan: WorkbookPlan;
  readonly values: CalculatedValues;
}

/**
 * Lays a roll-up out as a workbook: Summary with its charts, Changes where it was compared, Jobs, Unfinished, Outliers, Systems, Technicians,
 * Instruments, Months, Trend, Visits, Names where some look alike, Kinds, Left out, Findings and Notes. Sums and percents that a person may want to follow are formulas.
 */
export function summaryWorkbook(
  rolled: RollUp,
  findings: readonly Finding[],
  details: SummaryDetails,
): SummaryWorkbook {
  const { units } = details;
  const jobs = jobsSheet(rolled.jobs, units);
  const months = groupSheet(
    "Months",
    "Month",
    "not dated",
    "One row per month, by the date of each outlet's readings.",
    rolled.months,
    units,
  );
  const leftOutFiles = new Set(findings.filter(({ leftOut }) => leftOut === "workbook").map(({ file }) => file)).size;
  const reports: readonly ReportSheet[] = [
    summarySheet(rolled, jobs, months, leftOutFiles, details),
    ...(details.changes === null ? [] : [changesSheet(details.changes)]),
    jobs,
    unfinishedSheet(rolled.jobs),
    outliersSheet(rolled.systems),
    systemsSheet(rolled.systems, units),
    groupSheet(
      "Technicians",
      "Technician",
      "not named",
      "One row per technician, over all jobs.",
      rolled.technicians,
      units,
    ),
    instrumentsSheet(rolled.instruments, units, details.calibrationMonths),
    months,
    trendSheet(rolled.trend, units),
    visitsSheet(rolled.visits, units),
    ...(rolled.names.length === 0 ? [] : [namesSheet(rolled.names)]),
    groupSheet("Kinds", "Kind", "not given", "One row per kind of outlet, over all jobs.", rolled.kinds, units),
    leftOutSheet(findings),
    findingsSheet(findings),
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
