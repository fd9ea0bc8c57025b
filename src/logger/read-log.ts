import { findTime, findTimeFormat, isTimeFormat, timeColumns } from "./find-time.js";
import { findRange, findUnits, findVelocity, velocityColumns, velocityRange } from "./find-velocity.js";
import type { LogAnswer, LogAnswers, LogChoices, LogQuestion } from "./log-answer.js";
import { asked, LOG_QUESTIONS } from "./log-answer.js";
import { columnLabel, logColumns } from "./log-columns.js";
import type { LogContent } from "./log-content.js";
import { LogProblem } from "./log-limits.js";
import { countRows, type LogSeries, logSeries } from "./log-series.js";
import { type LogBookOpener, type LogSource, logSource } from "./log-source.js";
import { isDecimalMark, logTable } from "./log-table.js";
import type { TextDecoderMaker } from "./log-text.js";
import { velocityUnit } from "./velocity-unit.js";

/** A question that another has to be answered for first is not asked yet. */
const HANGS_ON: Readonly<Partial<Record<LogQuestion, readonly LogQuestion[]>>> = {
  decimal: ["sheet", "delimiter"],
  header: ["sheet", "delimiter"],
  time: ["sheet", "delimiter"],
  timeFormat: ["sheet", "delimiter", "time"],
  velocity: ["sheet", "delimiter"],
  units: ["sheet", "delimiter", "velocity"],
  range: ["sheet", "delimiter", "velocity", "units"],
};

const NO_ROW = "No row holds a time and a number.";

/** One probe of a log. */
export interface LogChannel {
  /** The name of its column, or its place where it has none. */
  readonly name: string;
  readonly series: LogSeries;
}

/** What is read of a log. */
export interface ReadLog {
  readonly answers: LogAnswers;
  /** What a person has to answer before the numbers mean anything. */
  readonly open: readonly LogQuestion[];
  /** Rows of data below the names. */
  readonly rowCount: number;
  /** One for each column of velocities; none while something is open, or where nothing can be read. */
  readonly channels: readonly LogChannel[];
  /** Why nothing can be read, whatever is chosen; null otherwise. */
  readonly problem: string | null;
}

const NOTHING_READ = asked("Nothing can be read.", []);

/** What there is to say of a log that cannot be read. */
function unreadable(problem: string): ReadLog {
  const answers = Object.fromEntries(LOG_QUESTIONS.map((name) => [name, NOTHING_READ])) as unknown as LogAnswers;
  return { answers, open: [], rowCount: 0, channels: [], problem };
}

/**
 * Reads any delimited log, or sheet of a workbook, with a time and a velocity column, and tells what it took for what,
 * and why. A text is gone through piece by piece and never held whole.
 *
 * @param content - The file's bytes, whole or in pieces, or its text
 * @param choices - What a person says instead of what is found
 * @param Decoder - TextDecoder, which browsers and Node have
 * @param openBook - Reads a workbook; without it a packed file is refused
 */
export function readLog(
  content: LogContent,
  choices: LogChoices,
  Decoder: TextDecoderMaker,
  openBook?: LogBookOpener,
): ReadLog {
  try {
    return readSource(logSource(content, choices, Decoder, openBook), choices);
  } catch (thrown) {
    if (thrown instanceof LogProblem) return unreadable(thrown.message);
    throw thrown;
  }
}

function readSource(source: LogSource, choices: LogChoices): ReadLog {
  const { encoding, sheet } = source;
  const table = logTable(source, choices);
  const { delimiter, decimal, header, sample, firstRow } = table;
  const columns = logColumns(table);
  const time = findTime(columns, choices.time);
  const times = timeColumns(columns, time.value);
  const timeFormat = findTimeFormat(times, choices.timeFormat);
  const velocity = findVelocity(columns, times, choices.velocity);
  const velocities = velocityColumns(columns, velocity.value);
  const units = findUnits(velocities, sample.slice(0, firstRow), choices.units);
  const unit = velocityUnit(units.value ?? "");
  const range = findRange(unit, choices.range);
  const answers: Readonly<Record<LogQuestion, LogAnswer>> = {
    encoding,
    sheet,
    delimiter,
    decimal,
    header,
    time,
    timeFormat,
    velocity,
    units,
    range,
  };
  const unanswered = LOG_QUESTIONS.filter((name) => answers[name].value === null);
  const open = unanswered.filter((name) => !HANGS_ON[name]?.some((other) => unanswered.includes(other)));
  const limits = velocityRange(range.value);
  const format = timeFormat.value;
  const isSettled = unit !== null && limits !== null && open.length === 0;
  if (!isSettled || !isDecimalMark(decimal.value) || !isTimeFormat(format)) {
    const rowCount = countRows(table.rows(), firstRow);
    const isEmpty = rowCount === 0 && sheet.value !== null;
    return { answers, open, rowCount, channels: [], problem: isEmpty ? NO_ROW : null };
  }
  const { channels, rowCount } = logSeries(table.rows(), {
    firstRow,
    timeIndexes: times.map(({ index }) => index),
    format,
    velocityIndexes: velocities.map(({ index }) => index),
    decimal: decimal.value,
    unit,
    range: limits,
  });
  const isNone = channels.every(({ readings }) => readings.length === 0);
  return {
    answers,
    open,
    rowCount,
    channels: channels.flatMap((series, index) => {
      const column = velocities[index];
      return column === undefined ? [] : [{ name: column.name === "" ? columnLabel(column) : column.name, series }];
    }),
    problem: rowCount === 0 ? NO_ROW : isNone ? "No row holds both a time and a velocity that can be taken." : null,
  };
}
