import { metersPerSecondFromFpm } from "../core/index.js";
import {
  FINDING_NAMES,
  type FindingName,
  type LogSeries,
  type LogSweep,
  type NotReading,
  type ReadLog,
  type SuggestedSweep,
} from "../logger/index.js";
import { counted } from "./workbook-report.js";

/** The option that answers each finding; also its line in what is printed. */
export const OPTION_OF: Readonly<Record<FindingName, string>> = {
  encoding: "encoding",
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

/** A sweep with the start and end that were suggested, or typed. */
export interface PickedSweep {
  readonly suggested: SuggestedSweep;
  readonly isSuggested: boolean;
  /** Null where no reading lies between them. */
  readonly sweep: LogSweep | null;
}

function printFindings({ findings }: ReadLog): void {
  const width = Math.max(...FINDING_NAMES.map((name) => OPTION_OF[name].length));
  for (const name of FINDING_NAMES) {
    const { value, standing, reason, choices } = findings[name];
    const shown = value === null ? "?" : (choices.find((choice) => choice.value === value)?.label ?? value);
    console.log(`  ${OPTION_OF[name].padEnd(width)}  ${shown}  (${standing}) ${reason}`);
  }
}

function printOpen({ findings, open }: ReadLog): void {
  console.log("\nNothing is calculated before this is answered:");
  for (const name of open) {
    const offered = findings[name].choices;
    console.log(`  --${OPTION_OF[name]} …  ${findings[name].reason}`);
    for (const { value, label } of offered) console.log(`      --${OPTION_OF[name]} ${value}  ${label}`);
  }
}

const shownSeconds = (seconds: number) => `${Number(seconds.toFixed(2))} s`;
const shownVelocity = (fpm: number) => `${fpm.toFixed(0)} fpm (${metersPerSecondFromFpm(fpm).toFixed(2)} m/s)`;

function printNotReadings(notReadings: readonly NotReading[]): void {
  if (notReadings.length === 0) return;
  const kinds = new Map<string, NotReading[]>();
  for (const one of notReadings) {
    const alike = kinds.get(one.kind) ?? [];
    alike.push(one);
    kinds.set(one.kind, alike);
  }
  console.log(`  not a reading  ${counted(notReadings.length, "row")}, never taken as a number`);
  for (const [kind, rows] of kinds) {
    const named = rows.slice(0, MOST_LISTED).map(({ row, text }) => (text === "" ? `${row}` : `${row} “${text}”`));
    const more = rows.length > MOST_LISTED ? ` and ${rows.length - MOST_LISTED} more` : "";
    console.log(`    ${kind}: row ${named.join(", ")}${more}`);
  }
}

function printSweep(series: LogSeries, sweep: LogSweep): void {
  console.log(`  mean       ${shownVelocity(sweep.meanFpm)}, weighted by time`);
  console.log(`  lowest     ${shownVelocity(sweep.leastFpm)}`);
  console.log(`  highest    ${shownVelocity(sweep.mostFpm)}`);
  const spread =
    sweep.spreadPercent === null ? "none, since the mean is not above 0" : `${sweep.spreadPercent.toFixed(1)} %`;
  console.log(`  spread     ${spread} (coefficient of variation)`);
  console.log(`  duration   ${shownSeconds(sweep.durationSeconds)}, ${counted(sweep.count, "reading")}`);
  const usual = series.usualIntervalSeconds;
  if (usual !== null) console.log(`  interval   ${shownSeconds(usual)}, as a rule`);
  if (sweep.negativeCount > 0)
    console.log(
      `  negative   ${counted(sweep.negativeCount, "reading")}, air against the probe; counted with their sign`,
    );
  for (const { fromSeconds, toSeconds } of sweep.gaps.slice(0, MOST_LISTED)) {
    console.log(
      `  gap        no row from ${shownSeconds(fromSeconds)} to ${shownSeconds(toSeconds)}; it counts for nothing`,
    );
  }
  for (const { velocityFpm, count, fromRow, toRow } of sweep.stuck.slice(0, MOST_LISTED)) {
    console.log(`  stuck      ${shownVelocity(velocityFpm)}, ${count} times running, rows ${fromRow} to ${toRow}`);
  }
  const unlisted = Math.max(sweep.gaps.length - MOST_LISTED, 0) + Math.max(sweep.stuck.length - MOST_LISTED, 0);
  if (unlisted > 0) console.log(`  and ${unlisted} more gaps and stuck values; --json lists every one`);
  printNotReadings(sweep.notReadings);
}

/** Prints what was found in a log, what is asked, and the sweep. */
export function printLog(path: string, log: ReadLog, picked: PickedSweep | null): void {
  console.log(`${path}: ${counted(log.rowCount, "row")} of data. What was found, and why:`);
  printFindings(log);
  if (log.problem !== null) console.log(`\n${log.problem}`);
  else if (log.series === null) printOpen(log);
  else if (picked?.sweep == null) console.log("\nNo reading lies between that start and end.");
  else {
    const { sweep, suggested } = picked;
    const why = picked.isSuggested ? `suggested. ${suggested.reason} --from and --to change it` : "as you chose";
    console.log(
      `\nFrom ${shownSeconds(sweep.fromSeconds)} to ${shownSeconds(sweep.toSeconds)} after the first row, ${log.series.startText} (${why}):`,
    );
    printSweep(log.series, sweep);
  }
}
