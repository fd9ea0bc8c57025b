import type { UnitSystemName } from "../../core/index.js";
import type { MeasuredKind, OutletRecord } from "./outlet-record.js";
import { type Tally, tallyOf } from "./tally.js";

/** What a workbook is, apart from what it holds. */
export interface JobFile {
  readonly file: string;
  /** When it was last saved, milliseconds since 1970; 0 where the host does not know. */
  readonly modifiedMs: number;
  /** A digest of its bytes; "" where the host makes none. */
  readonly contentHash: string;
}

/** The outlets of a job that share technician, day, kind, system and meter. */
export interface JobPart
  extends Pick<OutletRecord, "instrument" | "instrumentSerial" | "calibratedOn" | "calibrationDueOn"> {
  readonly technician: string;
  /** The fan or unit that serves them; "" where none is stated. */
  readonly system: string;
  /** The day of its readings, ISO 8601; null where none is stated. */
  readonly date: string | null;
  readonly kind: MeasuredKind | null;
  readonly tally: Tally;
}

/** What one job of one workbook comes to: plain data, small whatever the number of its outlets. */
export interface JobFigures extends JobFile {
  /** "" where none is stated: then the file is a job of its own. */
  readonly jobNumber: string;
  readonly jobName: string;
  /** The latest day of its outlets, ISO 8601. */
  readonly date: string | null;
  readonly customer: string;
  readonly site: string;
  readonly units: readonly UnitSystemName[];
  readonly parts: readonly JobPart[];
}

/** Groups things by a key, in the order in which the keys first come. */
export function groupedBy<T>(things: readonly T[], keyOf: (thing: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [thing]);
    else group.push(thing);
  }
  return groups;
}

/** Sums up a workbook's outlets, a job at a time. */
export function jobFigures(file: JobFile, outlets: readonly OutletRecord[]): readonly JobFigures[] {
  return [...groupedBy(outlets, ({ jobNumber }) => jobNumber.toLowerCase()).values()].map((ofJob) => ({
    ...file,
    jobNumber: ofJob[0]?.jobNumber ?? "",
    jobName: ofJob.find(({ jobName }) => jobName !== "")?.jobName ?? "",
    date: ofJob.reduce<string | null>((latest, { date }) => ((date ?? "") > (latest ?? "") ? date : latest), null),
    customer: ofJob[0]?.customer ?? "",
    site: ofJob[0]?.site ?? "",
    units: [...new Set(ofJob.flatMap(({ units }) => (units === null ? [] : [units])))].sort(),
    parts: partsOf(ofJob),
  }));
}

function partsOf(outlets: readonly OutletRecord[]): readonly JobPart[] {
  // A workbook states one meter for all its outlets.
  const keyOf = ({ technician, date, kind, system }: OutletRecord) =>
    [technician.toLowerCase(), date ?? "", kind ?? "", system.toLowerCase()].join("\n");
  return [...groupedBy(outlets, keyOf).values()].map((alike) => ({
    technician: alike[0]?.technician ?? "",
    system: alike[0]?.system ?? "",
    date: alike[0]?.date ?? null,
    instrument: alike[0]?.instrument ?? "",
    instrumentSerial: alike[0]?.instrumentSerial ?? "",
    calibratedOn: alike[0]?.calibratedOn ?? null,
    calibrationDueOn: alike[0]?.calibrationDueOn ?? null,
    kind: alike[0]?.kind ?? null,
    tally: tallyOf(alike),
  }));
}
