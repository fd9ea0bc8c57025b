import { DomainError, spread, sweepAverage } from "../core/index.js";
import type { LogReading, LogSeries, NotReading } from "./log-series.js";

/** A pause between two rows is a gap from this many usual intervals on, so that one missing row shows. */
const GAP_INTERVALS = 1.5;

/** From so many equal readings in a row, over so many seconds, a value counts as stuck. Common practice, no source. */
const STUCK_READINGS = 5;
const STUCK_SECONDS = 5;

/** A pause in a log. */
export interface LogGap {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** The same value over and over. */
export interface StuckRun {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly count: number;
  /** Rows of the file, from 1. */
  readonly fromRow: number;
  readonly toRow: number;
}

/** A value at which an instrument may have been stuck, once or again and again. */
export interface StuckValue {
  readonly velocityFpm: number;
  /** Readings of all its runs. */
  readonly count: number;
  /** In the order of time. */
  readonly runs: readonly StuckRun[];
  readonly longest: StuckRun;
}

/** What a log says between two moments. */
export interface LogSweep {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** From the first reading taken to the last. */
  readonly durationSeconds: number;
  /** How much of that time readings stand for; less than the duration where there are gaps. */
  readonly coveredSeconds: number;
  readonly count: number;
  /** Mean over time: each reading counts for the time half-way to its neighbours, and a gap for nobody. */
  readonly meanFpm: number;
  readonly leastFpm: number;
  readonly mostFpm: number;
  /** Coefficient of variation of the readings; null where their mean is not above 0. */
  readonly spreadPercent: number | null;
  readonly negativeCount: number;
  readonly gaps: readonly LogGap[];
  /** Each value once, the most frequent first. */
  readonly stuck: readonly StuckValue[];
  readonly notReadings: readonly NotReading[];
}

/**
 * The time that each reading stands for: half-way to the moment before and after, and never more than half the usual
 * interval on either side. Readings of one moment share its time, as where two a second are logged in whole seconds.
 */
function weightsSeconds(readings: readonly LogReading[], usualIntervalSeconds: number | null): readonly number[] {
  const half = (usualIntervalSeconds ?? 1) / 2;
  const weights: number[] = [];
  let before = Number.POSITIVE_INFINITY;
  for (let index = 0; index < readings.length; ) {
    const { seconds } = readings[index] as LogReading;
    let end = index + 1;
    while (end < readings.length && (readings[end] as LogReading).seconds === seconds) end += 1;
    const after = end < readings.length ? (readings[end] as LogReading).seconds - seconds : Number.POSITIVE_INFINITY;
    const weight = (Math.min(before / 2, half) + Math.min(after / 2, half)) / (end - index);
    for (; index < end; index += 1) weights.push(weight);
    before = after;
  }
  return weights;
}

function gapsIn(rowSeconds: readonly number[], usualIntervalSeconds: number | null): readonly LogGap[] {
  if (usualIntervalSeconds === null) return [];
  const gaps: LogGap[] = [];
  for (let index = 1; index < rowSeconds.length; index += 1) {
    const fromSeconds = rowSeconds[index - 1] as number;
    const toSeconds = rowSeconds[index] as number;
    if (toSeconds - fromSeconds > GAP_INTERVALS * usualIntervalSeconds) gaps.push({ fromSeconds, toSeconds });
  }
  return gaps;
}

function stuckValues(readings: readonly LogReading[]): readonly StuckValue[] {
  const byValue = new Map<number, StuckRun[]>();
  let begin = 0;
  for (let index = 1; index <= readings.length; index += 1) {
    const first = readings[begin];
    const last = readings[index - 1];
    if (first === undefined || last === undefined || readings[index]?.velocityFpm === first.velocityFpm) continue;
    const count = index - begin;
    if (count >= STUCK_READINGS && last.seconds - first.seconds >= STUCK_SECONDS) {
      const runs = byValue.get(first.velocityFpm) ?? [];
      runs.push({ fromSeconds: first.seconds, toSeconds: last.seconds, count, fromRow: first.row, toRow: last.row });
      byValue.set(first.velocityFpm, runs);
    }
    begin = index;
  }
  const values = [...byValue].map(([velocityFpm, runs]) => ({
    velocityFpm,
    count: runs.reduce((sum, run) => sum + run.count, 0),
    runs,
    longest: runs.reduce((one, other) => (other.count > one.count ? other : one)),
  }));
  return values.sort((one, other) => other.count - one.count);
}

/** Core refuses the spread of readings whose mean is not above 0; here that is one line fewer in a report. */
function spreadOf(velocitiesFpm: readonly number[]): number | null {
  try {
    return spread(velocitiesFpm);
  } catch (thrown) {
    if (thrown instanceof DomainError) return null;
    throw thrown;
  }
}

function extreme(values: readonly number[], pick: (one: number, other: number) => number): number {
  return values.reduce((one, other) => pick(one, other));
}

/** The first place in a list in order whose moment is not before another. */
function placeOf(count: number, secondsAt: (index: number) => number, isBefore: (seconds: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (isBefore(secondsAt(middle))) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** What a list in the order of time holds between two moments, both of them in. */
function between<T>(list: readonly T[], secondsOf: (one: T) => number, from: number, to: number): readonly T[] {
  const at = (index: number) => secondsOf(list[index] as T);
  const begin = placeOf(list.length, at, (seconds) => seconds < from);
  const end = placeOf(list.length, at, (seconds) => seconds <= to);
  return begin === 0 && end === list.length ? list : list.slice(begin, end);
}

/**
 * Returns mean, spread, duration, gaps, stuck values and rows that are no readings between two moments of a log.
 *
 * @param series - The log
 * @param fromSeconds - Start, after the first row
 * @param toSeconds - End, after the first row; a reading at either moment counts
 * @returns Null where no reading lies between them
 */
export function logSweep(series: LogSeries, fromSeconds: number, toSeconds: number): LogSweep | null {
  const readings = between(series.readings, ({ seconds }) => seconds, fromSeconds, toSeconds);
  const [first] = readings;
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return null;
  const velocitiesFpm = readings.map(({ velocityFpm }) => velocityFpm);
  const weights = weightsSeconds(readings, series.usualIntervalSeconds);
  const rowSeconds = between(series.rowSeconds, (seconds) => seconds, fromSeconds, toSeconds);
  return {
    fromSeconds,
    toSeconds,
    durationSeconds: last.seconds - first.seconds,
    coveredSeconds: weights.reduce((sum, weight) => sum + weight, 0),
    count: readings.length,
    meanFpm: sweepAverage(velocitiesFpm, weights),
    leastFpm: extreme(velocitiesFpm, Math.min),
    mostFpm: extreme(velocitiesFpm, Math.max),
    spreadPercent: spreadOf(velocitiesFpm),
    negativeCount: velocitiesFpm.filter((velocityFpm) => velocityFpm < 0).length,
    gaps: gapsIn(rowSeconds, series.usualIntervalSeconds),
    stuck: stuckValues(readings),
    notReadings: series.notReadings.filter(
      ({ seconds }) => seconds === null || (seconds >= fromSeconds && seconds <= toSeconds),
    ),
  };
}
