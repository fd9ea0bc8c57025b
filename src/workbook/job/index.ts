export { type DecisionRule, JOB_DETAIL_NAMES, type JobDetails, UNSTATED_JOB } from "./job-details.js";
export { type LimitsOfKind, limitsForKind } from "./limits-for-kind.js";
export { namedBlock } from "./named-cell.js";
export { readJob } from "./read-job.js";
export {
  type JobDetail,
  jobOf,
  jobPlaces,
  type StatedJob,
  statedJob,
} from "./stated-job.js";
export { statedRepeat } from "./stated-repeat.js";
export { airflowUnit, areaUnit, lengthUnit, velocityUnit } from "./unit-words.js";
export { writeJob } from "./write-job.js";
