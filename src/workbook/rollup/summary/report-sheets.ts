import type { UnitSystemName } from "../../../core/index.js";
import { type Finding, placeOf, sentencesOf } from "../../finding.js";
import { cell, EMPTY_SHEET } from "../../template/plan-parts.js";
import type { PagesSideBySide, SheetPlan } from "../../template/sheet-plan.js";
import type { RollUpChanges } from "../compare/compare-roll-ups.js";
import type { EarlierFinding, EarlierJob } from "../compare/earlier-roll-up.js";
import { leftOutByReason } from "../left-out.js";
import type { GroupOfJobs, JobResult, SystemResult } from "../roll-up.js";
import { FINDING_HEADER, figureColumns, HEADER, JOB_HEADER, LEFT_OUT_HEADER } from "./figure-columns.js";
import {
  joined,
  type ReportCells,
  type ReportColumn,
  type ReportTable,
  reportCell,
  reportTable,
} from "./report-table.js";

/** A sheet of a report, with the results of its formulas. */
export interface ReportSheet extends ReportCells {
  readonly sheet: SheetPlan;
}

/** A sheet that is a table of results, which other sheets may name. */
export interface TableReport extends ReportSheet {
  readonly block: ReportTable;
}

/** Row of the headers; above it stand title, lead, units and, where there are totals, these. */
const HEADER_ROW = 5;
const HEADER_ROW_BELOW_TOTALS = 8;
const BAND_ROW = 4;

/** A column of texts. */
export function textColumn<T>(header: string, width: number, of: (thing: T) => string | null): ReportColumn<T> {
  return { header, unit: "", width, format: "general", style: "resultText", of };
}

/** A column of texts that may need several lines, such as the path of a workbook or a sentence. */
export function wrappedColumn<T>(header: string, width: number, of: (thing: T) => string | null): ReportColumn<T> {
  return { header, unit: "", width, format: "general", style: "resultWrapped", of };
}

/** Text of 10 points is printed at 6.5, the least that is read without a glass. Chosen by us. */
const SCALE_PERCENT = 65;

/**
 * Lays a table out as a sheet, with its headers on every page.
 *
 * @param lastOfPage - The header after which the print goes on beside, its first column repeated; one page wide without
 */
export function tableReport<T>(
  name: string,
  lead: string,
  columns: readonly ReportColumn<T>[],
  things: readonly T[],
  band: ((block: ReportTable) => ReportCells) | null,
  lastOfPage: string | null = null,
): TableReport {
  const headerRow = band === null ? HEADER_ROW : HEADER_ROW_BELOW_TOTALS;
  const block = reportTable(name.replaceAll(" ", "_"), columns, things, headerRow);
  // On pages side by side the first column stands again, and a sentence under the title would be cut off there.
  const leadAt = lastOfPage === null ? "A2" : "B1";
  const head = joined(reportCell("A1", name, "title"), reportCell(leadAt, lead, "lead"));
  const all = band === null ? joined(head, block) : joined(head, band(block), block);
  const sheet: SheetPlan = {
    ...EMPTY_SHEET,
    name,
    role: "report",
    columnWidths: block.columnWidths,
    rowHeights: {
      1: 26,
      ...(band === null ? {} : { [BAND_ROW]: 28, [BAND_ROW + 1]: 20 }),
      [headerRow]: 42,
    },
    cells: all.cells,
    rows: block.rows,
    frozen: { rows: headerRow, columns: 1 },
    tables: [block.table],
    print: {
      orientation: "landscape",
      area: `A1:${block.lastColumn}${block.lastRow}`,
      repeatedRows: `${headerRow - 1}:${headerRow}`,
      fitToPagesHigh: null,
      ...(lastOfPage === null ? {} : { sideBySide: sideBySide(block, columns, lastOfPage) }),
    },
  };
  return { ...all, sheet, block };
}

/** On a letter page across, so many characters wide at the scale. */
const PAGE_WIDTH = 172;

/** Pages side by side: a break after the header that is named, and wherever the next columns would not fit. */
function sideBySide<T>(block: ReportTable, columns: readonly ReportColumn<T>[], lastOfPage: string): PagesSideBySide {
  const lettersOf = (header: string) => /[A-Z]+/.exec(block.rangeOf(header))?.[0] ?? "A";
  const breakAfter: string[] = [];
  let width = 0;
  for (const [index, column] of columns.entries()) {
    width += column.width;
    const next = columns[index + 1];
    if (next === undefined) break;
    if (column.header === lastOfPage || width + next.width > PAGE_WIDTH) {
      breakAfter.push(lettersOf(column.header));
      width = columns[0]?.width ?? 0;
    }
  }
  return { breakAfter, repeatedColumns: "A:A", scalePercent: SCALE_PERCENT };
}

/** Sums over the rows that a filter shows, above the columns that they sum. */
function shownSums(things: readonly JobResult[], columns: readonly ReportColumn<JobResult>[]) {
  return (block: ReportTable): ReportCells => {
    const sum = (header: string) => `SUBTOTAL(109,${block.rangeOf(header)})`;
    const sumOf = (header: string) => {
      const column = columns.find((one) => one.header === header);
      return things.reduce((total, thing) => {
        const content = column?.of(thing, () => "");
        return typeof content === "number" ? total + content : total;
      }, 0);
    };
    const summed = [
      HEADER.outlets,
      HEADER.compared,
      HEADER.notMeasured,
      HEADER.noDesign,
      HEADER.faulty,
      HEADER.low,
      HEADER.within,
      HEADER.high,
      HEADER.open,
      HEADER.design,
      HEADER.measured,
    ];
    const letters = (header: string) => /[A-Z]+/.exec(block.rangeOf(header))?.[0] ?? "A";
    const put = (header: string, formula: string, result: number | null, format: "thousands" | "oneDecimal") =>
      joined(
        reportCell(`${letters(header)}${BAND_ROW}`, header, "totalLabel"),
        reportCell(`${letters(header)}${BAND_ROW + 1}`, { formula, result }, "total", format),
      );
    const [design, measured] = [sum(HEADER.design), sum(HEADER.measured)];
    const [low, within, high, open] = [HEADER.low, HEADER.within, HEADER.high, HEADER.open].map(sum);
    const judged = sumOf(HEADER.low) + sumOf(HEADER.within) + sumOf(HEADER.high) + sumOf(HEADER.open);
    return joined(
      reportCell(`A${BAND_ROW}`, "Rows shown", "label"),
      ...summed.map((header) => put(header, `=${sum(header)}`, sumOf(header), "thousands")),
      put(
        HEADER.percent,
        `=IF(${design}>0,${measured}/${design}*100,"")`,
        sumOf(HEADER.design) > 0 ? (sumOf(HEADER.measured) / sumOf(HEADER.design)) * 100 : null,
        "oneDecimal",
      ),
      put(
        HEADER.withinShare,
        `=IF(${low}+${within}+${high}+${open}>0,${within}/(${low}+${within}+${high}+${open})*100,"")`,
        judged > 0 ? (sumOf(HEADER.within) / judged) * 100 : null,
        "oneDecimal",
      ),
    );
  };
}

/** One row a job. */
export function jobsSheet(jobs: readonly JobResult[], units: UnitSystemName): TableReport {
  const columns: readonly ReportColumn<JobResult>[] = [
    textColumn(JOB_HEADER.number, 14, ({ jobNumber }) => jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ jobName }) => jobName || null),
    textColumn(JOB_HEADER.date, 11, ({ date }) => date),
    textColumn("Technician", 18, ({ technicians }) => technicians.join(", ") || null),
    textColumn("Measured in", 9.5, (job) => job.units.join(", ") || null),
    ...figureColumns(units),
    ...(["customer", "site"] as const).flatMap((key) =>
      jobs.some((job) => job[key] !== "")
        ? [wrappedColumn<JobResult>(JOB_HEADER[key], 20, (job) => job[key] || null)]
        : [],
    ),
    wrappedColumn(JOB_HEADER.workbook, 46, ({ file }) => file),
  ];
  const lead =
    "One row per job, by its newest workbook. Filter or sort as you like: the totals above follow the rows shown.";
  return tableReport("Jobs", lead, columns, jobs, shownSums(jobs, columns), HEADER.open);
}

/** One row a system of a job. */
export function systemsSheet(systems: readonly SystemResult[], units: UnitSystemName): TableReport {
  const columns: readonly ReportColumn<SystemResult>[] = [
    textColumn(JOB_HEADER.number, 14, ({ jobNumber }) => jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ jobName }) => jobName || null),
    textColumn("System", 16, ({ system }) => system || "not named"),
    ...figureColumns(units),
    wrappedColumn("Workbook", 46, ({ file }) => file),
  ];
  return tableReport("Systems", "One row per system of a job.", columns, systems, null, HEADER.open);
}

/** Whether anything of a job is still to be done. */
const isUnfinished = ({ notMeasured, noDesign, faulty, low, high, open }: JobResult) =>
  notMeasured + noDesign + faulty + low + high + open > 0;

/** The jobs with outlets that are not measured, lack a figure or are outside their limits. */
export function unfinishedSheet(jobs: readonly JobResult[]): TableReport {
  const count = (header: string, of: (job: JobResult) => number): ReportColumn<JobResult> => ({
    header,
    unit: "",
    width: 9.5,
    format: "thousands",
    style: "result",
    of: (job) => of(job) || null,
  });
  const columns: readonly ReportColumn<JobResult>[] = [
    textColumn(JOB_HEADER.number, 14, ({ jobNumber }) => jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ jobName }) => jobName || null),
    textColumn(JOB_HEADER.date, 11, ({ date }) => date),
    textColumn("Technician", 18, ({ technicians }) => technicians.join(", ") || null),
    count(HEADER.outlets, ({ outlets }) => outlets),
    count(HEADER.notMeasured, ({ notMeasured }) => notMeasured),
    count(HEADER.noDesign, ({ noDesign }) => noDesign),
    count(HEADER.faulty, ({ faulty }) => faulty),
    count(HEADER.low, ({ low }) => low),
    count(HEADER.high, ({ high }) => high),
    count(HEADER.open, ({ open }) => open),
    wrappedColumn("Workbook", 46, ({ file }) => file),
  ];
  const lead = "Jobs with outlets that have no reading, lack a figure, are outside their limits or stay open.";
  return tableReport("Unfinished", lead, columns, jobs.filter(isUnfinished), null);
}

/** Outliers that nobody would read to the end are not listed. */
const MOST_OUTLIERS = 200;

/** Of each system the outlet farthest from its design, where it is outside its limits. */
export function outliersSheet(systems: readonly SystemResult[]): TableReport {
  const rows = systems
    .flatMap(({ farthest, jobNumber, jobName, file }) =>
      farthest === null || farthest.verdict === null || farthest.verdict === "within" || farthest.verdict === "open"
        ? []
        : [{ ...farthest, jobNumber, jobName, file }],
    )
    .sort((one, other) => Math.abs(other.percent - 100) - Math.abs(one.percent - 100));
  const columns: readonly ReportColumn<(typeof rows)[number]>[] = [
    textColumn(JOB_HEADER.number, 14, ({ jobNumber }) => jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ jobName }) => jobName || null),
    textColumn("System", 16, ({ system }) => system || null),
    textColumn("Room", 18, ({ room }) => room || null),
    textColumn("Outlet", 12, ({ outlet }) => outlet || null),
    {
      header: HEADER.percent,
      unit: "%",
      width: 10,
      format: "oneDecimal",
      style: "result",
      of: ({ percent }) => percent,
    },
    textColumn("Verdict", 10, ({ verdict }) => verdict),
    wrappedColumn("Workbook", 46, ({ file }) => file),
  ];
  const more = Math.max(rows.length - MOST_OUTLIERS, 0);
  const lead = `Of each system the outlet farthest from design, where it is outside its limits; the farthest first.${more > 0 ? ` ${more} more are not listed.` : ""}`;
  return tableReport("Outliers", lead, columns, rows.slice(0, MOST_OUTLIERS), null);
}

/** One row a technician, a month or a kind. */
export function groupSheet(
  name: "Technicians" | "Months" | "Kinds",
  header: string,
  missing: string,
  lead: string,
  groups: readonly GroupOfJobs[],
  units: UnitSystemName,
): TableReport {
  const columns: readonly ReportColumn<GroupOfJobs>[] = [
    textColumn(header, 20, (group) => group.name || missing),
    { header: "Jobs", unit: "", width: 8, format: "thousands", style: "result", of: ({ jobs }) => jobs },
    ...figureColumns(units),
  ];
  return tableReport(name, lead, columns, groups, null, HEADER.open);
}

/** More rows than this nobody reads, and a sheet of them is slow. */
const MOST_FINDINGS = 5000;

/** The workbooks that are left out: by reason, counted, those that somebody has to see to first. */
export function leftOutSheet(findings: readonly Finding[]): TableReport {
  const groups = leftOutByReason(findings);
  const rows = groups.flatMap(({ reason, findings: alike }) =>
    alike.map((finding) => ({ ...finding, reason, alike: alike.length })),
  );
  const columns: readonly ReportColumn<(typeof rows)[number]>[] = [
    wrappedColumn(LEFT_OUT_HEADER.reason, 34, ({ reason }) => reason),
    { header: "Alike", unit: "", width: 8, format: "thousands", style: "result", of: ({ alike }) => alike },
    wrappedColumn(LEFT_OUT_HEADER.workbook, 40, ({ file }) => file),
    textColumn(LEFT_OUT_HEADER.where, 16, (finding) => placeOf(finding) || null),
    wrappedColumn(LEFT_OUT_HEADER.what, 74, sentencesOf),
  ];
  const shown = rows.slice(0, MOST_FINDINGS);
  const more = rows.length - shown.length;
  const lead = `Workbooks of which nothing counts, or not every job.${more > 0 ? ` ${more} more are not listed here.` : ""}`;
  return tableReport("Left out", lead, columns, shown, null);
}

/** What a finding leaves out of the sums. */
const COSTS: Readonly<Record<Finding["leftOut"], string>> = {
  workbook: "the workbook",
  list: "the list",
  outlet: "the outlet",
  nothing: "nothing",
};

/** What was found in the workbooks that count. */
export function findingsSheet(findings: readonly Finding[]): TableReport {
  const columns: readonly ReportColumn<Finding>[] = [
    wrappedColumn(FINDING_HEADER.workbook, 46, ({ file }) => file),
    textColumn(FINDING_HEADER.where, 20, (finding) => placeOf(finding) || null),
    textColumn(FINDING_HEADER.costs, 18, ({ leftOut }) => COSTS[leftOut]),
    wrappedColumn(FINDING_HEADER.what, 90, sentencesOf),
  ];
  const ofThose = findings.filter(({ leftOut }) => leftOut !== "workbook");
  const shown = ofThose.slice(0, MOST_FINDINGS);
  const more = ofThose.length - shown.length;
  const lead = `An outlet with bad data counts in no sum.${more > 0 ? ` ${more} more findings are not listed here.` : ""}`;
  return tableReport("Findings", lead, columns, shown, null);
}

/** What is different from an earlier roll-up, what somebody has to look at first. */
export function changesSheet(changes: RollUpChanges): TableReport {
  interface Row {
    readonly what: string;
    readonly job: EarlierJob | null;
    readonly file: string;
    readonly detail: string;
  }
  const ofJob = (what: string, job: EarlierJob, detail: string): Row => ({ what, job, file: job.file, detail });
  const ofProblem = (what: string, { file, place, text }: EarlierFinding): Row => ({
    what,
    job: null,
    file,
    detail: place === "" ? text : `${place}: ${text}`,
  });
  const rows = [
    ...changes.newProblems.map((problem) => ofProblem("new problem", problem)),
    ...changes.goneJobs.map((job) => ofJob("job gone", job, `It had ${job.outlets} outlets.`)),
    ...changes.newJobs.map((job) => ofJob("new job", job, `${job.outlets} outlets, ${job.compared} compared`)),
    ...changes.changedJobs.map(({ job, changes: details }) => ofJob("job changed", job, details.join("; "))),
    ...changes.goneProblems.map((problem) => ofProblem("problem gone", problem)),
  ];
  const columns: readonly ReportColumn<Row>[] = [
    textColumn("What", 14, ({ what }) => what),
    textColumn(JOB_HEADER.number, 14, ({ job }) => job?.jobNumber || null),
    textColumn(JOB_HEADER.name, 24, ({ job }) => job?.jobName || null),
    wrappedColumn("Workbook", 46, ({ file }) => file),
    wrappedColumn("From what to what", 90, ({ detail }) => detail),
  ];
  const shown = rows.slice(0, MOST_FINDINGS);
  const more = rows.length - shown.length;
  const lead = `What is different from the earlier roll-up.${more > 0 ? ` ${more} more are not listed here.` : ""}`;
  return tableReport("Changes", lead, columns, shown, null);
}

/** A sheet of words. */
export function notesReport(name: string, notes: readonly (readonly [topic: string, text: string])[]): SheetPlan {
  const firstRow = 4;
  return {
    ...EMPTY_SHEET,
    name,
    role: "report",
    columnWidths: [26, 104],
    rowHeights: {
      1: 26,
      ...Object.fromEntries(
        notes.map(([, text], index) => [firstRow + index, 5 + 13.5 * Math.ceil(text.length / 118)]),
      ),
    },
    cells: [
      cell("A1", name, "title"),
      cell("A2", "What the figures are, and what they are not.", "lead"),
      ...notes.flatMap(([topic, text], index) => [
        cell(`A${firstRow + index}`, topic, "topic"),
        cell(`B${firstRow + index}`, text, "paragraph"),
      ]),
    ],
    print: {
      orientation: "landscape",
      area: `A1:B${firstRow + notes.length - 1}`,
      repeatedRows: null,
      fitToPagesHigh: null,
    },
  };
}
