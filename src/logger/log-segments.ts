import { median, sweepAverage } from "../core/index.js";
import type { LogReading, LogSeries } from "./log-series.js";
import { type LogSweep, logSweep } from "./log-sweep.js";

/**
 * Below this part of the usual velocity, and below this velocity whatever the usual one is, the probe is taken to be out
 * of the air stream: the second bound keeps a weak grille apart from a rest beside strong ones. Common practice, no source.
 */
const REST_RATIO = 0.1;
const REST_MOST_FPM = 50;

/** A rest, and a stretch of air, of less than this is none. Common practice, no source. */
const LEAST_SECONDS = 3;
const LEAST_READINGS = 3;

/** From so many usual intervals on, and so many seconds, a time without a reading parts two sweeps. Chosen by us. */
const PAUSE_INTERVALS = 5;

/** Below this part of the usual velocity for so long, a stretch may be a rest in still moving air. Chosen by us. */
const WEAK_RATIO = 0.25;
const WEAK_SECONDS = 5;

/** Short dips that are more of the readings than this may be rests after all. Chosen by us. */
const DIP_SHARE = 0.15;

/** A stretch of a log in the air stream, from one rest or pause to the next. */
export interface LogSegment extends LogSweep {
  /** From 1, in the order of time. */
  readonly number: number;
}

/** What lies between two sweeps, or before and after them. */
export interface LogRest {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** "near zero": readings below the level; "no readings": none at all; "too short": air, but not long enough. */
  readonly kind: "near zero" | "no readings" | "too short";
  /** Mean of its readings; null where there are none. */
  readonly meanFpm: number | null;
}

/** One way of parting a log into sweeps. */
export interface Parting {
  readonly segments: readonly LogSegment[];
  readonly rests: readonly LogRest[];
  /** How the sweeps were told apart, as a sentence. */
  readonly reason: string;
}

/** The sweeps of a log. */
export interface LogSegments {
  /** Null where a person has to say which of the ways it is. */
  readonly taken: Parting | null;
  readonly standing: "found" | "given" | "asked";
  /** What is asked, as a sentence; empty where nothing is. */
  readonly question: string;
  /** Every way that the log allows, each with another number of sweeps, fewest first. */
  readonly ways: readonly Parting[];
}

interface Stretch {
  /** Places in the list of readings: from the first up to, and without, the last. */
  readonly begin: number;
  readonly end: number;
}

/** How a log is looked at: what is near zero, and how long a rest has to last. */
interface Lens {
  readonly levelFpm: number;
  readonly restSeconds: number;
  readonly restReadings: number;
}

/** Readings of so many times what was taken for usual, if there are a few of them, show that a rest was taken for it. */
const ABOVE_REST = 4;

/**
 * The velocity of the air stream: the median of the upper half, since the median alone would sink where most is idle.
 * Where even that is idle, as in a log that ran all day, it is that of the readings far above.
 */
function usualVelocity(readings: readonly LogReading[]): number {
  let sizes = readings.map(({ velocityFpm }) => Math.abs(velocityFpm)).filter((size) => size > 0);
  for (;;) {
    if (sizes.length === 0) return 0;
    const middle = median(sizes);
    const usual = median(sizes.filter((size) => size >= middle));
    const above = sizes.filter((size) => size > ABOVE_REST * usual);
    if (above.length < LEAST_READINGS) return usual;
    sizes = above;
  }
}

const secondsAt = (readings: readonly LogReading[], index: number) => (readings[index] as LogReading).seconds;

/** How long a stretch lasts; each reading stands for one usual interval. */
function lasting(readings: readonly LogReading[], { begin, end }: Stretch, intervalSeconds: number): number {
  return secondsAt(readings, end - 1) - secondsAt(readings, begin) + intervalSeconds;
}

/** Parts the readings where there are none for long. */
function betweenPauses(readings: readonly LogReading[], pauseSeconds: number): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let begin = 0;
  for (let index = 1; index <= readings.length; index += 1) {
    if (index < readings.length && secondsAt(readings, index) - secondsAt(readings, index - 1) < pauseSeconds) continue;
    stretches.push({ begin, end: index });
    begin = index;
  }
  return stretches;
}

interface Parts {
  readonly air: readonly Stretch[];
  readonly short: readonly Stretch[];
  /** Readings near zero that count as part of a sweep, since they do not last. */
  readonly dipCount: number;
}

/** Parts one stretch between pauses into air and rests. */
function partStretch(
  readings: readonly LogReading[],
  whole: Stretch,
  { levelFpm, restSeconds, restReadings }: Lens,
  intervalSeconds: number,
): Parts {
  const isAir = (index: number) => Math.abs((readings[index] as LogReading).velocityFpm) >= levelFpm;
  const joined: { begin: number; end: number }[] = [];
  let dipCount = 0;
  let index = whole.begin;
  while (index < whole.end) {
    if (!isAir(index)) {
      index += 1;
      continue;
    }
    let end = index + 1;
    while (end < whole.end && isAir(end)) end += 1;
    const before = joined.at(-1);
    const isDip =
      before !== undefined &&
      (index - before.end < restReadings ||
        lasting(readings, { begin: before.end, end: index }, intervalSeconds) < restSeconds);
    if (isDip) {
      dipCount += index - before.end;
      before.end = end;
    } else joined.push({ begin: index, end });
    index = end;
  }
  const isLong = (one: Stretch) =>
    one.end - one.begin >= LEAST_READINGS && lasting(readings, one, intervalSeconds) >= LEAST_SECONDS;
  return { air: joined.filter(isLong), short: joined.filter((one) => !isLong(one)), dipCount };
}

function meanOf(readings: readonly LogReading[], { begin, end }: Stretch): number {
  let sum = 0;
  for (let index = begin; index < end; index += 1) sum += (readings[index] as LogReading).velocityFpm;
  return sum / (end - begin);
}

function restsBetween(
  readings: readonly LogReading[],
  air: readonly Stretch[],
  short: readonly Stretch[],
  pauseSeconds: number,
): readonly LogRest[] {
  const rests: LogRest[] = [];
  const add = (kind: LogRest["kind"], begin: number, end: number) => {
    if (end <= begin) return;
    const [fromSeconds, toSeconds] = [secondsAt(readings, begin), secondsAt(readings, end - 1)];
    rests.push({ fromSeconds, toSeconds, kind, meanFpm: meanOf(readings, { begin, end }) });
  };
  const isShort = new Set(short);
  const inOrder = [...air, ...short].sort((one, other) => one.begin - other.begin);
  let nth = 0;
  for (const whole of betweenPauses(readings, pauseSeconds)) {
    if (whole.begin > 0) {
      const [fromSeconds, toSeconds] = [secondsAt(readings, whole.begin - 1), secondsAt(readings, whole.begin)];
      rests.push({ fromSeconds, toSeconds, kind: "no readings", meanFpm: null });
    }
    let at = whole.begin;
    for (let next = inOrder[nth]; next !== undefined && next.begin < whole.end; next = inOrder[nth]) {
      nth += 1;
      add("near zero", at, next.begin);
      if (isShort.has(next)) add("too short", next.begin, next.end);
      at = next.end;
    }
    add("near zero", at, whole.end);
  }
  return rests;
}

const shownSeconds = (seconds: number) => `${Number(seconds.toFixed(seconds < 10 ? 1 : 0))} s`;

function reasonOf(count: number, { levelFpm, restSeconds }: Lens, pauseSeconds: number, rests: readonly LogRest[]) {
  if (count === 1 && rests.length === 0) return "All of the log.";
  const kinds = new Set(rests.map(({ kind }) => kind));
  const parts = [
    ...(kinds.has("near zero")
      ? [`below ${Math.round(levelFpm)} fpm for ${shownSeconds(restSeconds)} or more is a rest`]
      : []),
    ...(kinds.has("no readings") ? [`no reading for ${shownSeconds(pauseSeconds)} or more is a pause`] : []),
    ...(kinds.has("too short") ? [`air of less than ${shownSeconds(LEAST_SECONDS)} is not a sweep`] : []),
  ];
  const sentence = parts.join("; ");
  return `${sentence[0]?.toUpperCase() ?? ""}${sentence.slice(1)}.`;
}

/** A log seen through a lens; its sweeps are worked out for the lens that counts alone. */
interface Looked {
  readonly count: number;
  /** Of the readings in sweeps, how many, from 0 to 1, are in dips near zero. */
  readonly dipShare: number;
  readonly parting: () => Parting;
}

function lookThrough(series: LogSeries, lens: Lens): Looked {
  const { readings } = series;
  const intervalSeconds = series.usualIntervalSeconds ?? 1;
  const pauseSeconds = Math.max(PAUSE_INTERVALS * intervalSeconds, LEAST_SECONDS);
  const parts = betweenPauses(readings, pauseSeconds).map((one) => partStretch(readings, one, lens, intervalSeconds));
  let air = parts.flatMap((part) => part.air);
  let short = parts.flatMap((part) => part.short);
  const [first] = short;
  const last = short.at(-1);
  if (air.length === 0 && first !== undefined && last !== undefined) {
    // Nothing lasts: what air there is, is all that was measured.
    air = [{ begin: first.begin, end: last.end }];
    short = [];
  }
  const airCount = air.reduce((sum, { begin, end }) => sum + end - begin, 0);
  return {
    count: air.length,
    dipShare: parts.reduce((sum, { dipCount }) => sum + dipCount, 0) / Math.max(airCount, 1),
    parting: () => {
      const segments = air.flatMap(({ begin, end }, index) => {
        const sweep = logSweep(series, secondsAt(readings, begin), secondsAt(readings, end - 1));
        return sweep === null ? [] : [{ ...sweep, number: index + 1 }];
      });
      const rests = restsBetween(readings, air, short, pauseSeconds);
      return { segments, rests, reason: reasonOf(segments.length, lens, pauseSeconds, rests) };
    },
  };
}

/** The whole log as one sweep, for those who know that it is one. */
function asOne(series: LogSeries, found: Parting): Parting | null {
  const [first] = found.segments;
  const last = found.segments.at(-1);
  if (first === undefined || last === undefined || found.segments.length === 1) return null;
  const sweep = logSweep(series, first.fromSeconds, last.toSeconds);
  if (sweep === null) return null;
  const outside = found.rests.filter(
    ({ fromSeconds, toSeconds }) => toSeconds <= first.fromSeconds || fromSeconds >= last.toSeconds,
  );
  return { segments: [{ ...sweep, number: 1 }], rests: outside, reason: "From the first air to the last, all of it." };
}

const percent = (share: number) => `${Math.round(share * 100)} %`;

/** What speaks for another number of sweeps than what is plain to see; null where nothing does. */
function doubtOf(plain: Looked, weak: Looked, weakFpm: number): string | null {
  if (plain.dipShare >= DIP_SHARE) {
    return `${percent(plain.dipShare)} of the readings are near zero in between, each time for less than ${shownSeconds(LEAST_SECONDS)}`;
  }
  if (weak.count > plain.count) {
    return `For ${shownSeconds(WEAK_SECONDS)} or more the air is below ${Math.round(weakFpm)} fpm: a rest, or weak air`;
  }
  return null;
}

function questionOf(ways: readonly Parting[], doubt: string): string {
  const counts = ways.map(({ segments }) => (segments.length === 1 ? "one sweep" : `${segments.length} sweeps`));
  const [only] = counts;
  if (counts.length < 2) return `${doubt}. Is it ${only ?? "a sweep"}?`;
  return `${doubt}. Is it ${counts.slice(0, -1).join(", ")} or ${counts.at(-1) ?? ""}?`;
}

/**
 * Finds the sweeps in a log: stretches in the air stream between rests, which are found by their level and their length,
 * and pauses, in which nothing was logged. Where the log allows more than one number of sweeps it is asked, not guessed.
 *
 * @param series - The log
 * @param wanted - How many sweeps a person says there are; undefined to find out
 */
export function logSegments(series: LogSeries, wanted: number | undefined): LogSegments {
  const usual = usualVelocity(series.readings);
  const levelFpm = Math.min(REST_RATIO * usual, REST_MOST_FPM);
  const weakFpm = Math.max(WEAK_RATIO * usual, levelFpm);
  const lens = { levelFpm, restSeconds: LEAST_SECONDS, restReadings: LEAST_READINGS };
  const plain = lookThrough(series, lens);
  const weak = lookThrough(series, { ...lens, levelFpm: weakFpm, restSeconds: WEAK_SECONDS });
  const brief = lookThrough(series, { ...lens, restSeconds: 0, restReadings: 2 });
  const doubt = doubtOf(plain, weak, weakFpm);
  const found = plain.parting();
  const others = doubt === null ? [] : [weak, brief].filter(({ count }) => count > plain.count);
  const byCount = new Map<number, Parting>();
  for (const way of [found, asOne(series, found), ...others.map(({ parting }) => parting())]) {
    if (way !== null && way.segments.length > 0 && !byCount.has(way.segments.length))
      byCount.set(way.segments.length, way);
  }
  const ways = [...byCount.values()].sort((one, other) => one.segments.length - other.segments.length);
  const given = wanted === undefined ? undefined : byCount.get(wanted);
  if (given !== undefined) return { taken: given, standing: "given", question: "", ways };
  if (doubt === null) return { taken: found, standing: "found", question: "", ways };
  return { taken: null, standing: "asked", question: questionOf(ways, doubt), ways };
}

/** Several sweeps as one. */
export interface TakenSegments {
  readonly numbers: readonly number[];
  /** Each sweep weighted with its duration, as the sheet for sweeps does. */
  readonly meanFpm: number;
  readonly durationSeconds: number;
  readonly count: number;
}

/** Returns what several sweeps give together; null where none of them lasts. */
export function takeSegments(segments: readonly LogSegment[]): TakenSegments | null {
  const lasting = segments.filter(({ durationSeconds }) => durationSeconds > 0);
  if (lasting.length === 0) return null;
  const seconds = lasting.map(({ durationSeconds }) => durationSeconds);
  return {
    numbers: lasting.map(({ number }) => number),
    meanFpm: sweepAverage(
      lasting.map(({ meanFpm }) => meanFpm),
      seconds,
    ),
    durationSeconds: seconds.reduce((sum, one) => sum + one, 0),
    count: lasting.reduce((sum, { count }) => sum + count, 0),
  };
}
