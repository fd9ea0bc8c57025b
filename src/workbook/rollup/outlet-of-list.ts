import { cfmFromLitersPerSecond, inchesFromMillimeters, type UnitSystemName } from "../../core/index.js";
import { dateSerial, formatAddress, isoDate } from "../../xlsx/index.js";
import { type Finding, findingAt } from "../finding.js";
import type { ListedOutlet, ListedTraverse } from "../lists/index.js";
import { type ShownCell, shownText } from "../source/index.js";
import { type JudgedFigures, percentAndVerdict, SOUND, storedVerdict, verdictByJob } from "./judge-outlet.js";
import type { OfWorkbook } from "./of-workbook.js";
import type { OutletRecord, OutletStatus, OutletVerdict } from "./outlet-record.js";

/** An outlet as the roll-up counts it, and what was found wrong with it. */
export interface CountedOutlet {
  readonly value: OutletRecord;
  readonly findings: readonly Finding[];
}

function inCfm(flow: number | null, units: UnitSystemName | null): number | null {
  return flow === null || units !== "si" ? flow : cfmFromLitersPerSecond(flow);
}

function inInches(length: number | null, units: UnitSystemName | null): number | null {
  return length === null || units !== "si" ? length : inchesFromMillimeters(length);
}

type Figures = Pick<OutletRecord, "designCfm" | "beforeCfm" | "afterCfm" | "measuredCfm">;

/** What an outlet is judged by; nothing where it is faulty. */
function counted({ designCfm, measuredCfm }: Figures, plusMinusCfm: number | null, isFaulty: boolean): JudgedFigures {
  return isFaulty ? { designCfm: null, measuredCfm: null, plusMinusCfm } : { designCfm, measuredCfm, plusMinusCfm };
}

function statusOf({ designCfm, measuredCfm }: Figures): OutletStatus {
  if (measuredCfm === null) return "not measured";
  return designCfm === null ? "no design" : "compared";
}

/** Reads a date cell as ISO 8601: a date of the spreadsheet program, or a text such as 2026-03-31. */
function dayOf(cell: ShownCell, usesDate1904: boolean): string | undefined {
  if (cell.kind === "number") return isoDate(cell.value, usesDate1904);
  if (cell.kind !== "text" || !/^\d{4}-\d{2}-\d{2}/.test(cell.value)) return undefined;
  return isoDate(dateSerial(cell.value, false), false);
}

function jobDay({ job, usesDate1904 }: OfWorkbook): string | null {
  const serial = job?.details.dateSerial ?? null;
  return serial === null ? null : (isoDate(serial, usesDate1904) ?? null);
}

function readDay(
  { date, list, row }: ListedOutlet,
  workbook: OfWorkbook,
): { readonly value: string | null; readonly findings: readonly Finding[] } {
  if (date.kind === "blank" || date.kind === "not calculated") return { value: jobDay(workbook), findings: SOUND };
  const day = dayOf(date, workbook.usesDate1904);
  if (day !== undefined) return { value: day, findings: SOUND };
  const shown = date.kind === "error" ? date.value : shownText(date);
  const cell = formatAddress(row.row, list.columns.get("date") ?? 1);
  const problem = `The date says “${shown.slice(0, 40)}”, which is not a date.`;
  return {
    value: null,
    findings: [findingAt([list.sheet, cell], "date", "nothing", problem, "Write it like 2026-03-31.")],
  };
}

/**
 * Judges the airflow as found by the limits that the one as left is judged by; null by a guarded rule where the row does
 * not state the ± as found.
 */
function verdictAsFound(
  { kind, foundVerdict, foundPlusMinus, unitsOf }: ListedOutlet,
  { designCfm, beforeCfm, afterCfm }: Figures,
  { job }: OfWorkbook,
): OutletVerdict | null {
  if (designCfm === null || beforeCfm === null || afterCfm === null) return null;
  const plusMinusCfm = inCfm(foundPlusMinus, unitsOf("foundPlusMinus"));
  if (job?.details.decisionRule === "guarded" && plusMinusCfm === null) return null;
  return verdictByJob(storedVerdict(foundVerdict), beforeCfm, designCfm, plusMinusCfm, kind, job);
}

/** Takes one outlet of a list into the roll-up, in inch-pound units. */
export function outletOfList(outlet: ListedOutlet, workbook: OfWorkbook): CountedOutlet {
  const { list, row, found, left, now, kind } = outlet;
  const flow = (value: number | null, key: Parameters<ListedOutlet["unitsOf"]>[0]) => inCfm(value, outlet.unitsOf(key));
  const beforeCfm = flow(found.flow, "found");
  // Beside an airflow as found the one that now is stands for the one as left.
  const afterCfm = flow(left.flow, "left") ?? (beforeCfm === null ? null : flow(now.flow, "airflow"));
  const figures: Figures = {
    designCfm: flow(outlet.design, "design"),
    beforeCfm,
    afterCfm,
    measuredCfm: afterCfm ?? flow(now.flow, "airflow") ?? beforeCfm,
  };
  const isFaulty = outlet.findings.some(({ leftOut }) => leftOut === "outlet");
  const day = readDay(outlet, workbook);
  const { percent, percentColumn, verdict, verdictColumn } = outlet;
  const stored = {
    isOld: outlet.isOld,
    sheet: list.sheet,
    row: row.row,
    percent,
    percentColumn,
    verdict,
    verdictColumn,
  };
  const plusMinusCfm = flow(outlet.plusMinus, "plusMinus");
  const judged = percentAndVerdict(stored, counted(figures, plusMinusCfm, isFaulty), kind, workbook);
  const { details } = workbook.job ?? { details: null };
  // Field by field: a spread costs more than all the rest of the row.
  const value: OutletRecord = {
    sheet: list.sheet,
    row: row.row,
    status: isFaulty ? "faulty" : statusOf(figures),
    jobNumber: outlet.jobId || (details?.jobNumber ?? ""),
    jobName: outlet.jobName || (details?.jobName ?? ""),
    date: day.value,
    technician: outlet.technician || (details?.technician ?? ""),
    system: outlet.system,
    room: outlet.room,
    outlet: outlet.tag || `row ${row.row}`,
    kind,
    widthIn: inInches(outlet.width, outlet.unitsOf("width")),
    heightIn: inInches(outlet.height, outlet.unitsOf("height")),
    factorRatio: outlet.factor,
    isFactorAssumed: outlet.factorIs === null ? null : outlet.factorIs === "assumed",
    units: outlet.units,
    designCfm: figures.designCfm,
    beforeCfm: figures.beforeCfm,
    foundVerdict: isFaulty ? null : verdictAsFound(outlet, figures, workbook),
    afterCfm: figures.afterCfm,
    measuredCfm: figures.measuredCfm,
    plusMinusCfm,
    percent: judged.value.percent,
    verdict: judged.value.verdict,
    note: outlet.note,
    instrument: workbook.instrument,
    instrumentSerial: workbook.instrumentSerial,
    calibratedOn: workbook.calibratedOn,
    calibrationDueOn: workbook.calibrationDueOn,
    customer: workbook.customer,
    site: workbook.site,
  };
  const isSound = outlet.findings.length + day.findings.length + judged.findings.length === 0;
  return { value, findings: isSound ? SOUND : [...outlet.findings, ...day.findings, ...judged.findings] };
}

/** Takes a traverse into the roll-up: a duct that was measured. */
export function outletOfTraverse(traverse: ListedTraverse, workbook: OfWorkbook): CountedOutlet {
  const { sheet, row } = traverse;
  const units = workbook.job?.statedUnits ?? null;
  const unstated = "The sheet of job details does not say whether its figures are in cfm (ip) or L/s (si).";
  const findings = [
    ...traverse.findings,
    ...(units === null ? [findingAt([sheet, ""], "units", "outlet", unstated, "Say it there.")] : []),
  ];
  const isFaulty = findings.some(({ leftOut }) => leftOut === "outlet");
  const figures: Figures = {
    designCfm: inCfm(traverse.design, units),
    beforeCfm: null,
    afterCfm: null,
    measuredCfm: inCfm(traverse.airflow, units),
  };
  const plusMinusCfm = inCfm(traverse.plusMinus, units);
  const judged = percentAndVerdict(traverse, counted(figures, plusMinusCfm, isFaulty), "duct", workbook);
  const { details } = workbook.job ?? { details: null };
  const value: OutletRecord = {
    sheet,
    row,
    status: isFaulty ? "faulty" : statusOf(figures),
    jobNumber: details?.jobNumber ?? "",
    jobName: details?.jobName ?? "",
    date: jobDay(workbook),
    technician: details?.technician ?? "",
    system: traverse.system,
    room: "",
    outlet: traverse.tag,
    kind: "duct",
    widthIn: inInches(traverse.width, units),
    heightIn: inInches(traverse.height, units),
    factorRatio: null,
    isFactorAssumed: null,
    units,
    ...figures,
    foundVerdict: null,
    plusMinusCfm,
    ...judged.value,
    note: traverse.note,
    instrument: workbook.instrument,
    instrumentSerial: workbook.instrumentSerial,
    calibratedOn: workbook.calibratedOn,
    calibrationDueOn: workbook.calibrationDueOn,
    customer: workbook.customer,
    site: workbook.site,
  };
  return { value, findings: [...findings, ...judged.findings] };
}
