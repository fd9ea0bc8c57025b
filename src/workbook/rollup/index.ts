export type { CalculatedResults } from "../source/index.js";
export { jobKey } from "./choose-newest.js";
export { compareRollUps, type RollUpChanges } from "./compare/compare-roll-ups.js";
export { type EarlierFinding, type EarlierRollUp, earlierFindings, earlierJob } from "./compare/earlier-roll-up.js";
export { readSummary } from "./compare/read-summary.js";
export type { GroupResult } from "./group-result.js";
export { type JobFigures, type JobFile, type JobPart, jobFigures } from "./job-figures.js";
export { EVERY_JOB, isOfTechnician, type JobFilter } from "./job-filter.js";
export { type LeftOutGroup, leftOutByReason } from "./left-out.js";
export { type NameRule, type NameVariant, nameRules, outletRenamer } from "./names.js";
export type { MeasuredKind, OutletRecord, OutletStatus } from "./outlet-record.js";
export { type PackedOutlets, packOutlets, unpackOutlets } from "./packed-outlets.js";
export {
  FINDING_COLUMNS,
  isOfOneWorkbook,
  JOB_COLUMNS,
  LEFT_OUT_COLUMNS,
  type PartColumn,
  partJob,
  partLeftOut,
} from "./part-tables.js";
export { PERCENT_BINS, type PercentBin } from "./percent-bins.js";
export { notOpened, type OutletsRead, openJob, readOutlets } from "./read-job.js";
export {
  chosenOf,
  type GroupOfJobs,
  type JobResult,
  type RollUp,
  type RollUpSettings,
  rollUp,
  type SystemResult,
  USUAL_CALIBRATION_MONTHS,
  USUAL_SETTINGS,
} from "./roll-up.js";
export type { SummaryDetails } from "./summary/summary-details.js";
export { type SummaryWorkbook, summaryWorkbook } from "./summary/summary-workbook.js";
export type { Tally } from "./tally.js";
export { LATER_COLUMNS, TIDY_COLUMNS, type TidyColumn, type TidyType } from "./tidy-columns.js";
export { outletOfTidy } from "./tidy-outlet.js";
