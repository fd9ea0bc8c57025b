export type { GroupResult } from "./group-result.js";
export type { RollUpIssue, RollUpIssueCode } from "./issue.js";
export { type JobFigures, type JobFile, type JobPart, jobFigures } from "./job-figures.js";
export type { OutletKind, OutletRecord, OutletStatus, UnitSystem } from "./outlet-record.js";
export { PERCENT_BINS, type PercentBin } from "./percent-bins.js";
export { notOpened, type OutletsRead, openJob, readOutlets } from "./read-job.js";
export { type GroupOfJobs, type JobResult, type RollUp, rollUp } from "./roll-up.js";
export type { CalculatedResults } from "./sheet-reader.js";
export type { Tally } from "./tally.js";
