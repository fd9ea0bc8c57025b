import type { UnitSystemName } from "../../core/index.js";
import { dateSerial, findSheetEntry, isoDate, parseAddress, readSheet, type Workbook } from "../../xlsx/index.js";
import { type CalculatedResults, type ShownCell, shownCell, shownText } from "./sheet-reader.js";

/** The job's limits in percent of design; null where the workbook does not state them. */
export interface JobLimits {
  readonly minusPercent: number | null;
  readonly plusPercent: number | null;
}

/** What a workbook states once for the job; "" or null where it does not. */
export interface JobDetails {
  readonly jobNumber: string;
  readonly jobName: string;
  readonly date: ShownCell;
  readonly technician: string;
  readonly units: UnitSystemName | null;
  readonly limits: JobLimits;
  readonly outsideAirLimits: JobLimits;
}

const BLANK: ShownCell = { kind: "blank" };

/** Reads the cell that a name of the workbook stands for. */
function namedCell(workbook: Workbook, name: string, calculated: CalculatedResults): ShownCell {
  const wanted = name.toLowerCase();
  const refersTo = workbook.names.find((known) => known.name.toLowerCase() === wanted)?.refersTo ?? "";
  const mark = refersTo.lastIndexOf("!");
  const place = parseAddress(refersTo.slice(mark + 1));
  const sheetName = refersTo
    .slice(0, Math.max(mark, 0))
    .replace(/^'(.*)'$/, "$1")
    .replaceAll("''", "'");
  if (place === undefined || findSheetEntry(workbook, sheetName)?.kind !== "worksheet") return BLANK;
  return shownCell(readSheet(workbook, sheetName), place.row, place.column, calculated);
}

function percentBetween(cell: ShownCell, maximum: number): number | null {
  return cell.kind === "number" && cell.value >= 0 && cell.value <= maximum ? cell.value : null;
}

/** Reads "ip" or "si", in any case; null for anything else. */
export function unitSystem(cell: ShownCell): UnitSystemName | null {
  const word = shownText(cell).toLowerCase();
  return word === "ip" || word === "si" ? word : null;
}

/** Reads a date cell as ISO 8601: a date of the spreadsheet program, or a text such as 2026-03-31. */
export function dateOf(cell: ShownCell, usesDate1904: boolean): string | undefined {
  if (cell.kind === "number") return isoDate(cell.value, usesDate1904);
  if (cell.kind !== "text" || !/^\d{4}-\d{2}-\d{2}/.test(cell.value)) return undefined;
  return isoDate(dateSerial(cell.value, false), false);
}

/** Reads the job's details by the names of their cells. */
export function readJobDetails(workbook: Workbook, calculated: CalculatedResults): JobDetails {
  const at = (name: string) => namedCell(workbook, name, calculated);
  const limits = (prefix: string): JobLimits => ({
    minusPercent: percentBetween(at(`Job_${prefix}LimitMinus`), 100),
    plusPercent: percentBetween(at(`Job_${prefix}LimitPlus`), Number.MAX_VALUE),
  });
  return {
    jobNumber: shownText(at("Job_Id")),
    jobName: shownText(at("Job_Name")),
    date: at("Job_Date"),
    technician: shownText(at("Job_Technician")),
    units: unitSystem(at("Job_Units")),
    limits: limits(""),
    outsideAirLimits: limits("OutsideAir"),
  };
}
