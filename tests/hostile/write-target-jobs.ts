import { readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { makeJobs } from "../../src/tools/rollup/make-jobs.js";

const TEMPLATE = resolve(import.meta.dirname, "../../templates/job-summary.xlsx");

/** Puts a workbook and a folder of jobs into an empty folder. */
export function writeTargetJobs(folder: string): void {
  const bytes = new Uint8Array(readFileSync(TEMPLATE));
  writeFileSync(join(folder, "job.xlsx"), bytes);
  makeJobs(join(folder, "jobs"), bytes, { files: 2, rows: 3, badEvery: 0 });
}
