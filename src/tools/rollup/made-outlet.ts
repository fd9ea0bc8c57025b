import { JOB_SUMMARY_COLUMNS, type JobSummaryKey } from "../../workbook/index.js";
import type { MadeContent, MadeRow } from "./summary-workbook.js";

/** Fills the columns of a job summary by their keys; a column that is not given stays empty. */
export function madeRow(contents: Readonly<Partial<Record<JobSummaryKey, MadeContent>>>): MadeRow {
  return JOB_SUMMARY_COLUMNS.map(({ key }) => contents[key] ?? null);
}
