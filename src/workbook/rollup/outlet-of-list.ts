import {
  cfmFromLitersPerSecond,
  designDecision,
  designVerdict,
  inchesFromMillimeters,
  percentOfDesign,
  type UnitSystemName,
} from "../../core/index.js";
import { dateSerial, formatAddress, isoDate } from "../../xlsx/index.js";
import { type Finding, findingAt } from "../finding.js";
import { limitsForKind, type StatedJob, UNSTATED_JOB } from "../job/index.js";
import type { ListedOutlet, ListedTraverse } from "../lists/index.js";
import { type ShownCell, shownText } from "../source/index.js";
import type { OutletRecord, OutletStatus, OutletVerdict } from "./outlet-record.js";

/** What every outlet of a workbook shares. */
export interface OfWorkbook
  extends Pick<
    OutletRecord,
    "instrument" | "instrumentSerial" | "calibratedOn" | "calibrationDueOn" | "customer" | "site"
  > {
  readonly job: StatedJob | null;
  readonly usesDate1904: boolean;
}

/** What a workbook states for all its outlets. */
export function ofWorkbook(job: StatedJob | null, usesDate1904: boolean): OfWorkbook {
  const details = job?.details ?? UNSTATED_JOB;
  const { instrument, instrumentSerial, customer, site } = details;
  const dayOf = (serial: number | null) => (serial === null ? null : (isoDate(serial, usesDate1904) ?? null));
  return {
    job,
    usesDate1904,
    instrument: instrument ?? "",
    instrumentSerial: instrumentSerial ?? "",
    calibratedOn: dayOf(details.calibratedSerial),
    calibrationDueOn: dayOf(details.calibrationDueSerial),
    customer: customer ?? "",
    site: site ?? "",
  };
}

/** An outlet as the roll-up counts it, and what was found wrong with it. */
export interface CountedOutlet {
  readonly value: OutletRecord;
  readonly findings: readonly Finding[];
}

/** By so many percent a stored percent may differ before it is called stale: the last digit that a sheet shows. */
const SHOWN_DIGIT_PERCENT = 0.05;

function inCfm(flow: number | null, units: UnitSystemName | null): number | null {
  return flow === null || units !== "si" ? flow : cfmFromLitersPerSecond(flow);
}

function inInches(length: number | null, units: UnitSystemName | null): number | null {
  return length === null || units !== "si" ? length : inchesFromMillimeters(length);
}

type Figures = Pick<OutletRecord, "designCfm" | "beforeCfm" | "afterCfm" | "measuredCfm">;

type JudgedFigures = Pick<OutletRecord, "designCfm" | "measuredCfm" | "plusMinusCfm">;

/** What an outlet is judged by; nothing where it is faulty. */
function counted({ designCfm, measuredCfm }: Figures, plusMinusCfm: number | null, isFaulty: boolean): JudgedFigures {
  return isFaulty ? { designCfm: null, measuredCfm: null, plusMinusCfm } : { designCfm, measuredCfm, plusMinusCfm };
}

const SOUND: readonly Finding[] = [];

function statusOf({ designCfm, measuredCfm }: Figures): OutletStatus {
  if (measuredCfm === null) return "not measured";
  return designCfm === null ? "no design" : "compared";
}

interface Stored {
  /** Whether the reading is from before the last change: nothing is judged by it. */
  readonly isOld?: boolean;
  readonly sheet: string;
  readonly row: number;
  readonly percent: ShownCell;
  readonly percentColumn: number | undefined;
  readonly verdict: string;
  readonly verdictColumn: number | undefined;
}

const VERDICTS: readonly OutletVerdict[] = ["low", "within", "high", "open"];

function storedVerdict(word: string): OutletVerdict | null {
  return VERDICTS.find((verdict) => verdict === word.toLowerCase()) ?? null;
}

/**
 * The verdict by the job's limits and its rule; null where it states one limit of two, since nothing is judged then, and
 * the stored one where it states none.
 */
function verdictByJob(
  stored: OutletVerdict | null,
  measuredCfm: number,
  designCfm: number,
  plusMinusCfm: number | null,
  kind: OutletRecord["kind"],
  job: StatedJob | null,
): OutletVerdict | null {
  if (job === null) return stored;
  const limits = limitsForKind(kind ?? "", job.details);
  if (limits === null) return null;
  if (limits.isAssumed) return stored;
  const { minusPercent, plusPercent } = limits;
  if (job.details.decisionRule !== "guarded") return designVerdict(measuredCfm, designCfm, minusPercent, plusPercent);
  if (plusMinusCfm === null || plusMinusCfm < 0) return "open";
  return designDecision(measuredCfm, designCfm, plusMinusCfm, minusPercent, plusPercent).decision;
}

/**
 * Works percent and verdict out from an outlet's figures, and says when the stored ones tell otherwise.
 *
 * The job's limits and rule decide; where the workbook does not state them, the stored verdict stands.
 */
function percentAndVerdict(
  stored: Stored,
  { designCfm, measuredCfm, plusMinusCfm }: JudgedFigures,
  kind: OutletRecord["kind"],
  { job }: OfWorkbook,
): { readonly value: Pick<OutletRecord, "percent" | "verdict">; readonly findings: readonly Finding[] } {
  if (designCfm === null || measuredCfm === null) return { value: { percent: null, verdict: null }, findings: SOUND };
  const percent = percentOfDesign(measuredCfm, designCfm);
  if (stored.isOld) {
    const problem = "The reading is from before the last change of a damper or the fan: no verdict is given.";
    const action = "Read the outlet again, and clear the cell that says old.";
    const place = [stored.sheet, formatAddress(stored.row, stored.verdictColumn ?? 1)] as const;
    const findings = [findingAt(place, "stale-result", "nothing", problem, action)];
    return { value: { percent, verdict: null }, findings };
  }
  const word = storedVerdict(stored.verdict);
  const verdict = verdictByJob(word, measuredCfm, designCfm, plusMinusCfm, kind, job);
  const isPercentStale =
    stored.percent.kind === "number" && Math.abs(stored.percent.value - percent) > SHOWN_DIGIT_PERCENT;
  if (!isPercentStale && (word === null || word === verdict)) return { value: { percent, verdict }, findings: SOUND };
  const shown = `${percent.toFixed(1)} %${verdict === null ? "" : `, ${verdict}`}`;
  const column = (isPercentStale ? stored.percentColumn : stored.verdictColumn) ?? 1;
  const stale = findingAt(
    [stored.sheet, formatAddress(stored.row, column)],
    "stale-result",
    "nothing",
    `Percent or verdict of the row is out of date; its figures give ${shown}, which counts.`,
    "Let the workbook calculate, and save it.",
  );
  return { value: { percent, verdict }, findings: [stale] };
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
