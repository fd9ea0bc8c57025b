import type { UnitSystemName } from "../../core/index.js";
import { cfmFromLitersPerSecond, inchesFromMillimeters } from "../../core/index.js";
import { OUTLET_KINDS } from "../template/common-columns.js";
import type { OutletBlock } from "./find-outlets.js";
import { dateOf, type JobDetails, unitSystem } from "./job-details.js";
import type { OutletKind, OutletRecord, OutletStatus } from "./outlet-record.js";
import { percentAndVerdict } from "./percent-and-verdict.js";
import {
  addFinding,
  type Finding,
  quoted,
  type RowReader,
  rowCell,
  rowHasFormula,
  rowNumber,
  rowText,
} from "./row-reader.js";
import { type CalculatedResults, shownText } from "./sheet-reader.js";

/** A number beyond it, in the unit of the row, is a slip of the hand. Chosen by us, no source. */
const LARGEST_AIRFLOW = 10_000_000;
const AIRFLOW = { least: -LARGEST_AIRFLOW, most: LARGEST_AIRFLOW };
const NOT_NEGATIVE = { least: 0, most: LARGEST_AIRFLOW };
const RATIO = { least: Number.MIN_VALUE, most: 1 };

/** Whether a row of the table is there to be filled: it names no outlet and holds no figure. */
function isSpare(reader: RowReader): boolean {
  const keys = ["outlet", "design", "before", "after", "measured"] as const;
  return keys.every((key) => {
    const { kind } = rowCell(reader, key);
    return kind === "blank" || kind === "not calculated";
  });
}

/**
 * Reads one row of outlets, or nothing where the row is spare.
 *
 * Percent and verdict are worked out anew from the figures; the stored ones only tell whether the file is up to date.
 */
export function readOutlet(
  block: OutletBlock,
  row: number,
  job: JobDetails,
  usesDate1904: boolean,
  calculated: CalculatedResults,
): { readonly value: OutletRecord | null; readonly issues: readonly Finding[] } {
  const reader: RowReader = { block, row, calculated, findings: [] };
  if (isSpare(reader)) return { value: null, issues: [] };
  const units = readUnits(reader, job);
  const design = rowNumber(reader, "design", NOT_NEGATIVE, "outlet");
  const before = inCfm(rowNumber(reader, "before", AIRFLOW, "outlet"), units);
  const after = inCfm(rowNumber(reader, "after", AIRFLOW, "outlet"), units);
  const only = inCfm(rowNumber(reader, "measured", AIRFLOW, "outlet"), units);
  const figures = {
    // 0 stands for "not given" here, as it does in every cell function.
    designCfm: design === 0 ? null : inCfm(design, units),
    beforeCfm: before,
    afterCfm: after,
    measuredCfm: after ?? before ?? only,
  };
  const outlet = readTag(reader, row);
  const kind = readKind(reader);
  const date = readDate(reader, job, usesDate1904);
  const isFaulty = reader.findings.some(({ leftOut }) => leftOut === "outlet");
  const counted = isFaulty ? { ...figures, designCfm: null, measuredCfm: null } : figures;
  const { percent, verdict } = percentAndVerdict(
    reader,
    counted,
    kind === "outside air" ? job.outsideAirLimits : job.limits,
  );
  const value: OutletRecord = {
    sheet: block.sheet.name,
    row,
    status: isFaulty ? "faulty" : statusOf(figures),
    jobNumber: rowText(reader, "jobId") || job.jobNumber,
    jobName: rowText(reader, "jobName") || job.jobName,
    date,
    technician: rowText(reader, "technician") || job.technician,
    system: rowText(reader, "system"),
    room: rowText(reader, "room"),
    outlet,
    kind,
    widthIn: inInches(rowNumber(reader, "width", NOT_NEGATIVE, "note"), units),
    heightIn: inInches(rowNumber(reader, "height", NOT_NEGATIVE, "note"), units),
    factorRatio: rowNumber(reader, "factor", RATIO, "note"),
    isFactorAssumed: readAssumed(reader),
    units,
    ...figures,
    plusMinusCfm: inCfm(rowNumber(reader, "plusMinus", NOT_NEGATIVE, "note"), units),
    percent,
    verdict,
    note: rowText(reader, "note"),
  };
  return { value, issues: reader.findings };
}

function inCfm(flow: number | null, units: UnitSystemName | null): number | null {
  return flow === null || units !== "si" ? flow : cfmFromLitersPerSecond(flow);
}

function inInches(length: number | null, units: UnitSystemName | null): number | null {
  return length === null || units !== "si" ? length : inchesFromMillimeters(length);
}

function statusOf({ designCfm, measuredCfm }: Pick<OutletRecord, "designCfm" | "measuredCfm">): OutletStatus {
  if (measuredCfm === null) return "not measured";
  return designCfm === null ? "no design" : "compared";
}

function readUnits(reader: RowReader, job: JobDetails): UnitSystemName | null {
  const cell = rowCell(reader, "units");
  if (cell.kind === "blank" || cell.kind === "not calculated") {
    if (job.units !== null) return job.units;
    const message = "Neither the row nor the sheet of job details says whether its figures are ip or si. Say it there.";
    addFinding(reader, "units", "outlet", "units", message);
    return null;
  }
  const units = unitSystem(cell);
  if (units === null) {
    const shown = cell.kind === "error" ? cell.value : quoted(shownText(cell));
    addFinding(reader, "units", "outlet", "units", `Units say “${shown}”. Write ip or si.`);
    return null;
  }
  if (job.units !== null && job.units !== units && rowHasFormula(reader, "units")) {
    const message = `Units show ${units}, but the sheet of job details says ${job.units}. Let the workbook calculate, and save it.`;
    addFinding(reader, "units", "outlet", "units", message);
    return null;
  }
  return units;
}

function readTag(reader: RowReader, row: number): string {
  const tag = rowText(reader, "outlet");
  if (tag !== "") return tag;
  addFinding(
    reader,
    "no-outlet-tag",
    "note",
    "outlet",
    "The row has figures but no outlet. It counts; give it its tag.",
  );
  return `row ${row}`;
}

function readKind(reader: RowReader): OutletKind | null {
  const word = rowText(reader, "kind").toLowerCase();
  const kind = OUTLET_KINDS.find((known) => known === word);
  if (kind !== undefined) return kind;
  const said = word === "" ? "The kind is not given" : `The kind says “${quoted(word)}”`;
  addFinding(reader, "kind", "note", "kind", `${said}. Choose one of: ${OUTLET_KINDS.join(", ")}.`);
  return null;
}

function readDate(reader: RowReader, job: JobDetails, usesDate1904: boolean): string | null {
  const own = rowCell(reader, "date");
  const cell = own.kind === "blank" || own.kind === "not calculated" ? job.date : own;
  if (cell.kind === "blank" || cell.kind === "not calculated") return null;
  const date = dateOf(cell, usesDate1904);
  if (date !== undefined) return date;
  const shown = cell.kind === "error" ? cell.value : quoted(shownText(cell));
  addFinding(reader, "date", "note", "date", `The date says “${shown}”, which is no date. Write it like 2026-03-31.`);
  return null;
}

function readAssumed(reader: RowReader): boolean | null {
  const word = rowText(reader, "assumed").toLowerCase();
  if (word === "yes" || word === "no") return word === "yes";
  return null;
}
