import { findTime, findTimeFormat, isTimeFormat, timeColumns } from "./find-time.js";
import { findRange, findUnits, findVelocity, velocityRange } from "./find-velocity.js";
import type { Finding, FindingName, LogChoices, LogFindings } from "./finding.js";
import { FINDING_NAMES } from "./finding.js";
import { logColumns, namedColumn } from "./log-columns.js";
import { type LogSeries, logSeries } from "./log-series.js";
import { isDecimalMark, logTable } from "./log-table.js";
import { logText, type TextDecoderMaker } from "./log-text.js";
import { velocityUnit } from "./velocity-unit.js";

/** A question that another has to be answered for first is not asked yet. */
const HANGS_ON: Readonly<Partial<Record<FindingName, readonly FindingName[]>>> = {
  decimal: ["delimiter"],
  header: ["delimiter"],
  time: ["delimiter"],
  timeFormat: ["delimiter", "time"],
  velocity: ["delimiter"],
  units: ["delimiter", "velocity"],
  range: ["delimiter", "velocity", "units"],
};

/** What is read of a log. */
export interface ReadLog {
  readonly findings: LogFindings;
  /** What a person has to answer before the numbers mean anything. */
  readonly open: readonly FindingName[];
  /** Rows of data below the names. */
  readonly rowCount: number;
  /** Null while something is open, or where nothing can be read. */
  readonly series: LogSeries | null;
  /** Why nothing can be read, whatever is chosen; null otherwise. */
  readonly problem: string | null;
}

function problemOf(text: string, rowCount: number): string | null {
  if (text.trim() === "") return "The file is empty.";
  // A packed workbook begins so, and any other binary file has characters that no text has.
  if (text.startsWith("PK\u0003\u0004"))
    return "This is a packed file, such as a workbook. Save the log as text (CSV).";
  if (text.slice(0, 4096).includes("\0")) return "This is no text. Save the log as text (CSV).";
  return rowCount === 0 ? "No row holds a time and a number." : null;
}

/**
 * Reads any delimited log with a time and a velocity column, and tells what it took for what, and why.
 *
 * @param content - The file's bytes, or its text
 * @param choices - What a person says instead of what is found
 * @param Decoder - TextDecoder, which browsers and Node have
 */
export function readLog(content: string | Uint8Array, choices: LogChoices, Decoder: TextDecoderMaker): ReadLog {
  const { text, encoding } = logText(content, choices.encoding, Decoder);
  const table = logTable(text, choices);
  const { delimiter, decimal, header, rows, firstRow } = table;
  const columns = logColumns(table);
  const time = findTime(columns, choices.time);
  const times = timeColumns(columns, time.value);
  const timeFormat = findTimeFormat(times, choices.timeFormat);
  const velocity = findVelocity(columns, times, choices.velocity);
  const column = namedColumn(columns, velocity.value ?? "");
  const units = findUnits(column, rows.slice(0, firstRow), choices.units);
  const unit = velocityUnit(units.value ?? "");
  const range = findRange(unit, choices.range);
  const findings: Readonly<Record<FindingName, Finding>> = {
    encoding,
    delimiter,
    decimal,
    header,
    time,
    timeFormat,
    velocity,
    units,
    range,
  };
  const unanswered = FINDING_NAMES.filter((name) => findings[name].value === null);
  const open = unanswered.filter((name) => !HANGS_ON[name]?.some((other) => unanswered.includes(other)));
  const rowCount = rows.slice(firstRow).filter((row) => row.some((field) => field.trim() !== "")).length;
  const problem = problemOf(text, rowCount);
  const limits = velocityRange(range.value);
  const format = timeFormat.value;
  const isSettled = problem === null && column !== undefined && unit !== null && limits !== null && open.length === 0;
  if (!isSettled || !isDecimalMark(decimal.value) || !isTimeFormat(format)) {
    return { findings, open, rowCount, series: null, problem };
  }
  const series = logSeries(rows, {
    firstRow,
    timeIndexes: times.map(({ index }) => index),
    format,
    velocityIndex: column.index,
    decimal: decimal.value,
    unit,
    range: limits,
  });
  const none = series.readings.length === 0 ? "No row holds both a time and a velocity that can be taken." : null;
  return { findings, open, rowCount, series, problem: none };
}
