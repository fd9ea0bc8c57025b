import { metersPerSecondFromFpm } from "../core/index.js";
import {
  LOG_QUESTIONS,
  type LogQuestion,
  type LogRest,
  type LogSegment,
  type LogSegments,
  type LogSeries,
  type LogSweep,
  type NotReading,
  type ReadLog,
  type StuckValue,
} from "../logger/index.js";
import { onOneLine } from "./shown-controls.js";
import { widest } from "./widest.js";
import { counted } from "./workbook-report.js";

/** The option that answers each question; also its line in what is printed. */
export const OPTION_OF: Readonly<Record<LogQuestion, string>> = {
  encoding: "encoding",
  sheet: "sheet",
  delimiter: "delimiter",
  decimal: "decimal",
  header: "header",
  time: "time",
  timeFormat: "time-format",
  velocity: "velocity",
  units: "units",
  range: "range",
};

/** So many rows of a kind are named one by one. */
const MOST_LISTED = 10;

/** So many sweeps are listed; a log of more is not of sweeps. */
const MOST_SWEEPS = 500;

/** So many answers to a question are offered one by one. */
const MOST_OFFERED = 30;

/** The sweeps of one channel of a log. */
export interface FoundChannel {
  readonly name: string;
  readonly series: LogSeries;
  readonly standing: LogSegments["standing"];
  /** What has to be answered before there are sweeps; empty otherwise. */
  readonly question: string;
  readonly reason: string;
  readonly sweeps: readonly LogSegment[];
  readonly rests: readonly LogRest[];
  /** How many sweeps there may be, as in "1 or 3". */
  readonly offered: string;
}

/** A log with what was found in it. */
export interface FoundLog {
  readonly file: string;
  readonly log: ReadLog;
  readonly channels: readonly FoundChannel[];
}

function printAnswers({ answers }: ReadLog): void {
  const width = Math.max(...LOG_QUESTIONS.map((name) => OPTION_OF[name].length));
  for (const name of LOG_QUESTIONS) {
    const { value, standing, reason, choices } = answers[name];
    // What is so by the kind of file leaves nothing to choose.
    if (choices.length === 0 && name !== "range") continue;
    const shown = value === null ? "?" : (choices.find((choice) => choice.value === value)?.label ?? value);
    console.log(`  ${OPTION_OF[name].padEnd(width)}  ${onOneLine(shown)}  (${standing}) ${onOneLine(reason)}`);
  }
}

function printOpen({ answers, open }: ReadLog): void {
  console.log("\nAnswer this first:");
  for (const name of open) {
    const offered = answers[name].choices;
    console.log(`  --${OPTION_OF[name]} …  ${onOneLine(answers[name].reason)}`);
    for (const { value, label } of offered.slice(0, MOST_OFFERED)) {
      console.log(`      ${onOneLine(`--${OPTION_OF[name]} ${value}  ${label}`)}`);
    }
    if (offered.length > MOST_OFFERED) console.log(`      and ${offered.length - MOST_OFFERED} more`);
  }
}

export const shownSeconds = (seconds: number) => `${Number(seconds.toFixed(2))} s`;
export const shownVelocity = (fpm: number) => `${fpm.toFixed(0)} fpm (${metersPerSecondFromFpm(fpm).toFixed(2)} m/s)`;
const shownSpread = ({ spreadPercent }: LogSweep) =>
  spreadPercent === null ? "none, since the average is not above 0" : `${spreadPercent.toFixed(1)} %`;

function printNotReadings(notReadings: readonly NotReading[], indent: string): void {
  if (notReadings.length === 0) return;
  const kinds = new Map<string, NotReading[]>();
  for (const one of notReadings) {
    const alike = kinds.get(one.kind) ?? [];
    alike.push(one);
    kinds.set(one.kind, alike);
  }
  console.log(`${indent}not a reading  ${counted(notReadings.length, "row")}, never taken as a number`);
  for (const [kind, rows] of kinds) {
    const named = rows.slice(0, MOST_LISTED).map(({ row, text }) => (text === "" ? `${row}` : `${row} “${text}”`));
    const more = rows.length > MOST_LISTED ? ` and ${rows.length - MOST_LISTED} more` : "";
    console.log(`${indent}  ${onOneLine(`${kind}: row ${named.join(", ")}${more}`)}`);
  }
}

/** A value that sticks again and again is one line. */
function printStuck({ velocityFpm, count, runs, longest }: StuckValue, indent: string): void {
  const rows = `rows ${longest.fromRow} to ${longest.toRow}`;
  const where =
    runs.length === 1
      ? `${count} times running, ${rows}`
      : `${runs.length} times over, ${counted(count, "reading")}; the longest ${longest.count} running, ${rows}`;
  console.log(`${indent}stuck      ${shownVelocity(velocityFpm)}, ${where}`);
}

/** What speaks against a sweep. */
function printDoubts(sweep: LogSweep, indent: string): void {
  if (sweep.negativeCount > 0)
    console.log(
      `${indent}negative   ${counted(sweep.negativeCount, "reading")}, reverse flow; counted with their sign`,
    );
  for (const { fromSeconds, toSeconds } of sweep.gaps.slice(0, MOST_LISTED)) {
    console.log(
      `${indent}gap        no row from ${shownSeconds(fromSeconds)} to ${shownSeconds(toSeconds)}; it counts for nothing`,
    );
  }
  for (const stuck of sweep.stuck.slice(0, MOST_LISTED)) printStuck(stuck, indent);
  const unlisted = Math.max(sweep.gaps.length - MOST_LISTED, 0) + Math.max(sweep.stuck.length - MOST_LISTED, 0);
  if (unlisted > 0) console.log(`${indent}and ${unlisted} more gaps and stuck values; --json lists every one`);
  printNotReadings(sweep.notReadings, indent);
}

function printSweep(series: LogSeries, sweep: LogSweep): void {
  console.log(`  average    ${shownVelocity(sweep.meanFpm)}, weighted by time`);
  console.log(`  lowest     ${shownVelocity(sweep.leastFpm)}`);
  console.log(`  highest    ${shownVelocity(sweep.mostFpm)}`);
  console.log(`  spread     ${shownSpread(sweep)} of the readings`);
  console.log(`  time       ${shownSeconds(sweep.durationSeconds)}, ${counted(sweep.count, "reading")}`);
  const usual = series.usualIntervalSeconds;
  if (usual !== null) console.log(`  interval   ${shownSeconds(usual)}, as a rule`);
  printDoubts(sweep, "  ");
}

const REST_WORDS: Readonly<Record<LogRest["kind"], string>> = {
  "near zero": "near zero",
  "no readings": "no readings",
  "too short": "too short for a sweep",
};

function printSweepList(series: LogSeries, sweeps: readonly LogSegment[], rests: readonly LogRest[]): void {
  const rows = sweeps
    .slice(0, MOST_SWEEPS)
    .map((sweep) => [
      String(sweep.number),
      shownSeconds(sweep.fromSeconds),
      shownSeconds(sweep.toSeconds),
      shownSeconds(sweep.durationSeconds),
      shownVelocity(sweep.meanFpm),
      shownSpread(sweep),
      String(sweep.count),
    ]);
  const table = [["sweep", "from", "to", "time", "average", "spread", "readings"], ...rows];
  const widths = (table[0] ?? []).map((_, column) => widest(table.map((row) => row[column] ?? "")));
  for (const row of table)
    console.log(
      `  ${row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join("  ")
        .trimEnd()}`,
    );
  if (sweeps.length > MOST_SWEEPS) {
    console.log(`  and ${sweeps.length - MOST_SWEEPS} more sweeps; --json lists every one`);
  }
  const shown = rests.slice(0, MOST_LISTED);
  for (const { fromSeconds, toSeconds, kind, meanFpm } of shown) {
    const level = meanFpm === null ? "" : `, ${shownVelocity(meanFpm)} on average`;
    console.log(`  rest   ${shownSeconds(fromSeconds)} to ${shownSeconds(toSeconds)}: ${REST_WORDS[kind]}${level}`);
  }
  if (rests.length > shown.length)
    console.log(`  and ${rests.length - shown.length} more rests; --json lists every one`);
  const inSweeps = new Set(sweeps.flatMap(({ notReadings }) => notReadings.filter(({ seconds }) => seconds !== null)));
  for (const sweep of sweeps.slice(0, MOST_SWEEPS)) {
    const own = { ...sweep, notReadings: sweep.notReadings.filter(({ seconds }) => seconds !== null) };
    if (own.gaps.length + own.stuck.length + own.negativeCount + own.notReadings.length === 0) continue;
    console.log(`  sweep ${sweep.number}:`);
    printDoubts(own, "    ");
  }
  const besides = series.notReadings.filter((one) => !inSweeps.has(one));
  if (besides.length > 0) console.log("  outside the sweeps:");
  printNotReadings(besides, "    ");
}

function printChannel({ series, sweeps, rests, reason, question, standing, offered }: FoundChannel, isTaken: boolean) {
  const after = `after the first row, ${onOneLine(series.startText)}`;
  if (question !== "") {
    console.log(`\n${question}`);
    console.log(`Answer with --sweeps ${offered}, or choose start and end with --from and --to.`);
    return;
  }
  const [only, another] = sweeps;
  if (only === undefined) {
    console.log("\nNo reading lies between that start and end.");
  } else if (another === undefined) {
    const why = standing === "given" ? "as you chose" : `suggested. ${reason} --from and --to change it`;
    console.log(`\n${spanOf(only)} ${after} (${why}):`);
    printSweep(series, only);
  } else {
    console.log(`\n${sweeps.length} sweeps. ${reason} Seconds count ${after}:`);
    printSweepList(series, sweeps, rests);
    if (!isTaken) {
      const other = offered.includes("or") ? `; --sweeps ${offered} parts it otherwise` : "";
      console.log(`Nothing is averaged over a rest. --take 1,2 or --take all takes sweeps together${other}.`);
    }
  }
}

function spanOf({ fromSeconds, toSeconds }: LogSegment): string {
  const from = Number.isFinite(fromSeconds) ? `From ${shownSeconds(fromSeconds)}` : "From the beginning";
  return Number.isFinite(toSeconds) ? `${from} to ${shownSeconds(toSeconds)}` : `${from} to the end`;
}

/** Prints what was found in a log, what is asked, and its sweeps. */
export function printLog({ file, log, channels }: FoundLog, isTaken: boolean): void {
  if (log.problem !== null) {
    console.log(`${onOneLine(file)}: ${onOneLine(log.problem)}`);
    return;
  }
  console.log(`${onOneLine(file)}: ${counted(log.rowCount, "row")} of data. What was found, and why:`);
  printAnswers(log);
  if (channels.length === 0) printOpen(log);
  for (const channel of channels) {
    if (channels.length > 1) console.log(`\n${onOneLine(channel.name)}`);
    printChannel(channel, isTaken);
  }
}
