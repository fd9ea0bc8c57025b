import type { UnitSystemName } from "../../../core/index.js";
import type { GroupOfJobs, JobResult, SystemResult } from "../roll-up.js";
import { figureColumns, HEADER, JOB_HEADER } from "./figure-columns.js";
import { joined, type ReportCells, type ReportColumn, type ReportTable, reportCell } from "./report-table.js";
import { BAND_ROW, type TableReport, tableReport, textColumn, wrappedColumn } from "./table-report.js";

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
