import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { UnitSystemName } from "../../../src/core/index.js";
import { madeRow } from "../../../src/tools/rollup/made-outlet.js";
import { type MadeContent, makeSummaryWriter } from "../../../src/tools/rollup/summary-workbook.js";
import type { Finding } from "../../../src/workbook/finding.js";
import type { JobSummaryKey } from "../../../src/workbook/index.js";
import {
  type CalculatedResults,
  type JobFigures,
  jobFigures,
  type OutletRecord,
  openJob,
  readOutlets,
} from "../../../src/workbook/rollup/index.js";

export type OutletCells = Readonly<Partial<Record<JobSummaryKey, MadeContent>>>;

const write = makeSummaryWriter(
  new Uint8Array(readFileSync(resolve(import.meta.dirname, "../../../templates/job-summary.xlsx"))),
);

/** Days of a spreadsheet program, known beforehand: day 46000 is 9 December 2025. */
export const NINTH_OF_DECEMBER_2025 = 46_000;

/** What stands in every row and on the sheet of job details of a job, unless a test says otherwise. */
export const JOB = { number: "J-1", name: "Invented job", technician: "Tech A", date: NINTH_OF_DECEMBER_2025 };

/** The bytes of a job's workbook, from the columns that a test is about. */
export function jobBytes(
  outlets: readonly OutletCells[],
  job: Partial<typeof JOB> = {},
  units: UnitSystemName = "ip",
  details: Readonly<Record<string, number | string>> = {},
): Uint8Array {
  const { number, name, technician, date } = { ...JOB, ...job };
  return write({
    details: {
      ...(number === "" ? {} : { Job_Id: number }),
      Job_Name: name,
      Job_Date: date,
      Job_Technician: technician,
      Job_Units: units,
      ...details,
    },
    rows: outlets.map((outlet, index) =>
      madeRow({
        jobId: number === "" ? null : number,
        jobName: name,
        date,
        technician,
        outlet: `S-${index + 1}`,
        kind: "supply",
        units,
        ...outlet,
      }),
    ),
  });
}

/** Opens and reads a workbook as the roll-up does. */
export function readBytes(
  bytes: Uint8Array,
  calculated: CalculatedResults = new Map(),
  file = "job.xlsx",
): { readonly value: readonly OutletRecord[]; readonly findings: readonly Finding[] } {
  const { value, findings } = openJob(bytes, file);
  return value === null ? { value: [], findings } : readOutlets(value, calculated);
}

/** What a workbook comes to, a job at a time. */
export function figuresOf(bytes: Uint8Array, file: string, modifiedMs = 0, contentHash = ""): readonly JobFigures[] {
  return jobFigures({ file, modifiedMs, contentHash }, readBytes(bytes, new Map(), file).value);
}
