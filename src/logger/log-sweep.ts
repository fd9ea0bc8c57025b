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
  readonly velocityFpm: number;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly count: number;
  /** Rows of the file, from 1. */
  readonly fromRow: number;
  readonly toRow: number;
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
  readonly stuck: readonly StuckRun[];
  readonly notReadings: readonly NotReading[];
}

/**
 * The time that each reading stands for: half-way to the moment before and after, and never more than half the usual
 * interval on either side. Readings of one moment share its time, as where two a second are logged in whole seconds.
 */
function weightsSeconds(readings: readonly LogReading[], usualIntervalSeconds: number | null): readonly number[] {
  const half = (usualIntervalSeconds ?? 1) / 2;
  const moments: { readonly seconds: number; readonly count: number }[] = [];
  for (const { seconds } of readings) {
    const current = moments.at(-1);
    if (current?.seconds === seconds) moments[moments.length - 1] = { seconds, count: current.count + 1 };
    else moments.push({ seconds, count: 1 });
  }
  return moments.flatMap(({ seconds, count }, index) => {
    const before = seconds - (moments[index - 1]?.seconds ?? Number.NEGATIVE_INFINITY);
    const after = (moments[index + 1]?.seconds ?? Number.POSITIVE_INFINITY) - seconds;
    const weight = (Math.min(before / 2, half) + Math.min(after / 2, half)) / count;
    return Array.from({ length: count }, () => weight);
  });
}

function gapsIn(rowSeconds: readonly number[], usualIntervalSeconds: number | null): readonly LogGap[] {
  if (usualIntervalSeconds === null) return [];
  return rowSeconds.flatMap((toSeconds, index) => {
    const fromSeconds = rowSeconds[index - 1] ?? toSeconds;
    return toSeconds - fromSeconds > GAP_INTERVALS * usualIntervalSeconds ? [{ fromSeconds, toSeconds }] : [];
  });
}

function stuckRuns(readings: readonly LogReading[]): readonly StuckRun[] {
  const runs: StuckRun[] = [];
  let begin = 0;
  for (let index = 1; index <= readings.length; index += 1) {
    const first = readings[begin];
    const last = readings[index - 1];
    if (first === undefined || last === undefined || readings[index]?.velocityFpm === first.velocityFpm) continue;
    const count = index - begin;
    if (count >= STUCK_READINGS && last.seconds - first.seconds >= STUCK_SECONDS) {
      runs.push({
        velocityFpm: first.velocityFpm,
        fromSeconds: first.seconds,
        toSeconds: last.seconds,
        count,
        fromRow: first.row,
        toRow: last.row,
      });
    }
    begin = index;
  }
  return runs;
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

/**
 * Returns mean, spread, duration, gaps, stuck values and rows that are no readings between two moments of a log.
 *
 * @param series - The log
 * @param fromSeconds - Start, after the first row
 * @param toSeconds - End, after the first row; a reading at either moment counts
 * @returns Null where no reading lies between them
 */
export function logSweep(series: LogSeries, fromSeconds: number, toSeconds: number): LogSweep | null {
  const isInside = (seconds: number) => seconds >= fromSeconds && seconds <= toSeconds;
  const readings = series.readings.filter(({ seconds }) => isInside(seconds));
  const [first] = readings;
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return null;
  const velocitiesFpm = readings.map(({ velocityFpm }) => velocityFpm);
  const weights = weightsSeconds(readings, series.usualIntervalSeconds);
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
    gaps: gapsIn(series.rowSeconds.filter(isInside), series.usualIntervalSeconds),
    stuck: stuckRuns(readings),
    notReadings: series.notReadings.filter(({ seconds }) => seconds === null || isInside(seconds)),
  };
}
