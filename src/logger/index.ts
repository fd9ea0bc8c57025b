export {
  type AnswerChoice,
  type AnswerStanding,
  LOG_QUESTIONS,
  type LogAnswer,
  type LogAnswers,
  type LogChoices,
  type LogQuestion,
} from "./log-answer.js";
export type { LogContent, LogPieces } from "./log-content.js";
export { LogProblem, requireLogSize } from "./log-limits.js";
export { logMoment } from "./log-moment.js";
export {
  type LogRest,
  type LogSegment,
  type LogSegments,
  logSegments,
  type Parting,
  type TakenSegments,
  takeSegments,
} from "./log-segments.js";
export type { LogReading, LogSeries, NotReading, NotReadingKind } from "./log-series.js";
export { isPacked, type LogBook, type LogBookOpener } from "./log-source.js";
export { type LogGap, type LogSweep, logSweep, type StuckRun, type StuckValue } from "./log-sweep.js";
export { type LogChannel, type ReadLog, readLog } from "./read-log.js";
export { type SuggestedSweep, suggestedSweep } from "./suggested-sweep.js";
