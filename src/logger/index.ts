export {
  FINDING_NAMES,
  type Finding,
  type FindingChoice,
  type FindingName,
  type FindingStanding,
  type LogChoices,
  type LogFindings,
} from "./finding.js";
export { logMoment } from "./log-moment.js";
export type { LogReading, LogSeries, NotReading, NotReadingKind } from "./log-series.js";
export { type LogGap, type LogSweep, logSweep, type StuckRun } from "./log-sweep.js";
export { type ReadLog, readLog } from "./read-log.js";
export { type SuggestedSweep, suggestedSweep } from "./suggested-sweep.js";
