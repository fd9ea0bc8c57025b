import type { UnitSystemName } from "../../core/index.js";
import { dateSerial, isoDate, parseRange } from "../../xlsx/index.js";
import { type Finding, findingAt } from "../finding.js";
import type { BlockAddress } from "../host.js";
import type { SourceName, SourceValue, WorkbookSource } from "../source/index.js";
import { JOB_DETAIL_NAMES, type JobDetails, UNSTATED_JOB } from "./job-details.js";
import { LIMIT_PAIRS } from "./limits-for-kind.js";
import { namedBlock } from "./named-cell.js";

export type JobDetail = keyof JobDetails;

/** The job as a workbook states it. */
export interface StatedJob {
  readonly details: JobDetails;
  /** What the workbook itself says of its units; null where `details.units` is only what is usual. */
  readonly statedUnits: UnitSystemName | null;
  /** Where each detail stands; a detail without a place has no cell in this workbook. */
  readonly places: ReadonlyMap<JobDetail, BlockAddress>;
  /** What cannot be read, each naming its cell; the detail then counts as not stated. */
  readonly findings: readonly Finding[];
}

const DETAILS = Object.keys(JOB_DETAIL_NAMES) as readonly JobDetail[];

const TEXTS: ReadonlySet<JobDetail> = new Set([
  "jobNumber",
  "jobName",
  "technician",
  "instrument",
  "instrumentSerial",
  "customer",
  "site",
]);

const DATES: ReadonlySet<JobDetail> = new Set(["dateSerial", "calibratedSerial", "calibrationDueSerial"]);

/** How far a figure may go; what is beyond is a slip of the hand. As the input rules of the sheet have it. */
const RANGES: Readonly<Partial<Record<JobDetail, readonly [least: number, most: number]>>> = {
  minusPercent: [0, 100],
  plusPercent: [0, 1000],
  outsideMinusPercent: [0, 100],
  outsidePlusPercent: [0, 1000],
  resolution: [0, 1000],
};

/** Where the cells of the job are: the names of the whole workbook, not those of a copied sheet. */
export function jobPlaces(names: readonly SourceName[]): ReadonlyMap<JobDetail, BlockAddress> {
  const known = new Map(
    names.filter(({ sheet }) => sheet === undefined).map(({ name, refersTo }) => [name.toLowerCase(), refersTo]),
  );
  return new Map(
    DETAILS.flatMap((detail) => {
      const block = namedBlock(known.get(JOB_DETAIL_NAMES[detail].toLowerCase()) ?? "");
      return block === null ? [] : [[detail, block] as const];
    }),
  );
}

type ReadDetail = { readonly value: string | number | null } | { readonly wanted: string };

function readDetail(detail: JobDetail, value: SourceValue, usesDate1904: boolean): ReadDetail {
  const isBlank = value === null || (typeof value === "string" && value.trim() === "");
  if (isBlank) return { value: null };
  if (detail === "units") {
    const name = typeof value === "string" ? value.trim().toLowerCase() : "";
    return name === "ip" || name === "si" ? { value: name } : { wanted: "ip (cfm) or si (L/s)" };
  }
  if (detail === "decisionRule") {
    const rule = typeof value === "string" ? value.trim().toLowerCase() : "";
    return rule === "simple" || rule === "guarded" ? { value: rule } : { wanted: "simple or guarded" };
  }
  if (TEXTS.has(detail)) {
    return typeof value === "object" ? { wanted: "a text" } : { value: String(value).trim().replace(/\s+/g, " ") };
  }
  if (DATES.has(detail)) {
    const serial = typeof value === "string" ? dateSerial(value, usesDate1904) : value;
    const isDate = typeof serial === "number" && isoDate(serial, usesDate1904) !== undefined;
    return isDate ? { value: serial } : { wanted: "a date, such as 2026-03-31" };
  }
  const [least, most] = RANGES[detail] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (typeof value === "number" && value >= least && value <= most) return { value };
  return { wanted: RANGES[detail] === undefined ? "a number" : `a number from ${least} to ${most}` };
}

function shown(value: SourceValue): string {
  return typeof value === "object" && value !== null ? value.error : `“${String(value)}”`;
}

/**
 * Says what a workbook states of its job, from its cells.
 *
 * @param places - As `jobPlaces` finds them
 * @param valueAt - What a cell of the job holds
 * @returns The job; null where the workbook has no sheet of job details
 */
export function statedJob(
  places: ReadonlyMap<JobDetail, BlockAddress>,
  valueAt: (at: BlockAddress) => SourceValue,
  usesDate1904: boolean,
): StatedJob | null {
  if (!places.has("units")) return null;
  const findings: Finding[] = [];
  const stated = [...places].flatMap(([detail, at]) => {
    const value = valueAt(at);
    const read = readDetail(detail, value, usesDate1904);
    if ("value" in read) return read.value === null ? [] : [[detail, read.value] as const];
    const place = [at.sheet, at.range] as const;
    findings.push(
      findingAt(place, "job-detail", "nothing", `It holds ${shown(value)}.`, `Enter ${read.wanted} there.`),
    );
    return [];
  });
  const details: JobDetails = { ...UNSTATED_JOB, ...Object.fromEntries(stated) };
  findings.push(...halfLimits(details, places));
  const statedUnits = stated.some(([detail]) => detail === "units") ? details.units : null;
  return { details, statedUnits, places, findings };
}

/** A limit alone says nothing of the other side, and a blank one is not 0. */
function halfLimits(details: JobDetails, places: ReadonlyMap<JobDetail, BlockAddress>): readonly Finding[] {
  return LIMIT_PAIRS.flatMap(([minus, plus]): readonly Finding[] => {
    if ((details[minus] === null) === (details[plus] === null)) return [];
    const [empty, given] = details[minus] === null ? [minus, plus] : [plus, minus];
    const at = places.get(empty) ?? places.get(given);
    if (at === undefined) return [];
    const problem = "It states no limit, but the other limit is given: no verdict is given.";
    const action = "Enter both, 0 where nothing is allowed, or clear both for the usual ones.";
    return [findingAt([at.sheet, at.range], "job-detail", "nothing", problem, action)];
  });
}

/** Reads the job of a workbook whose cells are at hand. */
export function jobOf({ sheets, names, usesDate1904 }: WorkbookSource): StatedJob | null {
  const byName = new Map(sheets.map((sheet) => [sheet.name.toLowerCase(), sheet]));
  return statedJob(
    jobPlaces(names),
    ({ sheet, range }) => {
      const place = parseRange(range);
      return place === undefined
        ? null
        : (byName.get(sheet.toLowerCase())?.valueAt(place.firstRow, place.firstColumn) ?? null);
    },
    usesDate1904,
  );
}
