import { type Cfm, cfmFromLitersPerSecond } from "../../../core/index.js";
import { type CellValue, findSheetEntry, readSheet, type Sheet, valueAt, type Workbook } from "../../../xlsx/index.js";
import { HostError } from "../../host.js";
import { reasonOfSuperseded } from "../left-out.js";
import { FINDING_HEADER, HEADER, JOB_HEADER, LEFT_OUT_HEADER } from "../summary/figure-columns.js";
import { COMPARED_COUNTS, type EarlierFinding, type EarlierJob, type EarlierRollUp } from "./earlier-roll-up.js";

/** Where the header of a count is in the summary. */
const COUNT_HEADERS: Readonly<Record<(typeof COMPARED_COUNTS)[number][0], string>> = {
  outlets: HEADER.outlets,
  compared: HEADER.compared,
  notMeasured: HEADER.notMeasured,
  noDesign: HEADER.noDesign,
  faulty: HEADER.faulty,
  low: HEADER.low,
  within: HEADER.within,
  high: HEADER.high,
  open: HEADER.open,
};

/** Headers are in the first rows of a report. */
const MOST_ROWS_ABOVE = 20;
const MOST_COLUMNS = 60;

/**
 * Reads what a summary workbook says of its jobs and of what was found wanting.
 *
 * @throws {HostError} When the workbook is no summary of a roll-up, naming the sheet or the column that it lacks
 */
export function readSummary(workbook: Workbook): EarlierRollUp {
  const { fileName } = workbook;
  const jobs = tableOf(workbook, "Jobs", JOB_HEADER.workbook);
  const leftOut = tableOf(workbook, "Left out", LEFT_OUT_HEADER.workbook);
  const findings = tableOf(workbook, "Findings", FINDING_HEADER.workbook);
  return {
    jobs: jobs.rows.map((row) => jobOf(jobs, row, fileName)),
    findings: [
      ...leftOut.rows
        .filter((row) => leftOut.text(row, LEFT_OUT_HEADER.reason) !== reasonOfSuperseded)
        .map((row) => findingOf(leftOut, row, LEFT_OUT_HEADER, true)),
      ...findings.rows.map((row) =>
        findingOf(findings, row, FINDING_HEADER, findings.text(row, FINDING_HEADER.costs) !== "nothing"),
      ),
    ],
  };
}

interface ReportRows {
  readonly rows: readonly number[];
  readonly text: (row: number, header: string) => string;
  readonly value: (row: number, header: string) => CellValue;
  /** The unit above a header. */
  readonly unit: (header: string) => string;
}

function tableOf(workbook: Workbook, name: string, workbookHeader: string): ReportRows {
  if (findSheetEntry(workbook, name) === undefined) {
    throw notASummary(workbook.fileName, `it has no sheet “${name}”`);
  }
  const sheet = readSheet(workbook, name);
  const headerRow = headerRowOf(sheet, workbookHeader);
  if (headerRow === undefined) throw notASummary(workbook.fileName, `“${name}” has no column “${workbookHeader}”`);
  const columns = new Map(
    Array.from({ length: MOST_COLUMNS }, (_, index) => [String(valueAt(sheet, headerRow, index + 1) ?? ""), index + 1]),
  );
  const columnOf = (header: string) => {
    const column = columns.get(header);
    if (column === undefined) throw notASummary(workbook.fileName, `“${name}” has no column “${header}”`);
    return column;
  };
  const value = (row: number, header: string) => valueAt(sheet, row, columnOf(header));
  const rows: number[] = [];
  for (let row = headerRow + 1; value(row, workbookHeader) !== null; row += 1) rows.push(row);
  return {
    rows,
    value,
    text: (row, header) => String(value(row, header) ?? ""),
    unit: (header) => String(valueAt(sheet, headerRow - 1, columnOf(header)) ?? ""),
  };
}

function headerRowOf(sheet: Sheet, header: string): number | undefined {
  for (let row = 1; row <= MOST_ROWS_ABOVE; row += 1) {
    for (let column = 1; column <= MOST_COLUMNS; column += 1) {
      if (valueAt(sheet, row, column) === header) return row;
    }
  }
  return undefined;
}

function jobOf(jobs: ReportRows, row: number, fileName: string): EarlierJob {
  const number = (header: string): number => {
    const value = jobs.value(row, header);
    if (typeof value === "number") return value;
    throw notASummary(fileName, `“Jobs” has no number in row ${row}, column “${header}”`);
  };
  const flow = (header: string): Cfm =>
    jobs.unit(header) === "L/s" ? cfmFromLitersPerSecond(number(header)) : number(header);
  const counts = Object.fromEntries(COMPARED_COUNTS.map(([key]) => [key, number(COUNT_HEADERS[key])])) as Record<
    (typeof COMPARED_COUNTS)[number][0],
    number
  >;
  return {
    jobNumber: jobs.text(row, JOB_HEADER.number),
    jobName: jobs.text(row, JOB_HEADER.name),
    file: jobs.text(row, JOB_HEADER.workbook),
    date: jobs.text(row, JOB_HEADER.date) || null,
    ...counts,
    designCfm: flow(HEADER.design),
    measuredCfm: flow(HEADER.measured),
  };
}

function findingOf(
  rows: ReportRows,
  row: number,
  header: { readonly workbook: string; readonly where: string; readonly what: string },
  isProblem: boolean,
): EarlierFinding {
  return {
    file: rows.text(row, header.workbook),
    place: rows.text(row, header.where),
    text: rows.text(row, header.what),
    isProblem,
  };
}

function notASummary(fileName: string, lack: string): HostError {
  return new HostError(
    `“${fileName}” is not a summary of a roll-up: ${lack}. Compare with the -o SUMMARY.xlsx or the --parquet FILE of an earlier run.`,
  );
}
