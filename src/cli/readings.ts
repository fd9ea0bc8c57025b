import { readFile } from "node:fs/promises";
import {
  FINDING_NAMES,
  type LogChoices,
  type LogSeries,
  logMoment,
  logSweep,
  type ReadLog,
  readLog,
  suggestedSweep,
} from "../logger/index.js";
import { type Arguments, type Command, EXIT, onePositional, UsageError } from "./command.js";
import { OPTION_OF, type PickedSweep, printLog } from "./log-report.js";

/** A log of a day at ten a second is a tenth of this. */
const MOST_BYTES = 256 * 1024 * 1024;

function choicesOf({ options }: Arguments): LogChoices {
  const chosen = FINDING_NAMES.flatMap((name) => {
    const text = options[OPTION_OF[name]];
    return typeof text === "string" ? [[name, text] as const] : [];
  });
  return Object.fromEntries(chosen);
}

/** Refuses an option that did not take: whoever types one counts on it. */
function requireTaken({ findings }: ReadLog, choices: LogChoices): void {
  for (const name of FINDING_NAMES) {
    if (choices[name] === undefined || findings[name].standing === "given") continue;
    const offered = findings[name].choices.map(({ value }) => value).join(", ");
    const wanted = name === "range" ? "LOW..HIGH, such as 0.4..30" : `one of: ${offered}`;
    throw new UsageError(`--${OPTION_OF[name]} ${choices[name]} cannot be used here; it takes ${wanted}.`);
  }
}

function momentOf(text: string | boolean | undefined, option: string, series: LogSeries, otherwise: number): number {
  if (typeof text !== "string") return otherwise;
  const moment = logMoment(text, series);
  if (moment === null) throw new UsageError(`--${option} takes seconds after the first row, or a time of day h:mm:ss.`);
  return moment;
}

function pickedOf({ options }: Arguments, series: LogSeries): PickedSweep | null {
  const suggested = suggestedSweep(series);
  if (suggested === null) return null;
  const from = momentOf(options["from"], "from", series, suggested.fromSeconds);
  const to = momentOf(options["to"], "to", series, suggested.toSeconds);
  const isSuggested = options["from"] === undefined && options["to"] === undefined;
  return { suggested, isSuggested, sweep: logSweep(series, from, to) };
}

async function bytesOf(path: string): Promise<Uint8Array> {
  const bytes = await readFile(path);
  if (bytes.length <= MOST_BYTES) return bytes;
  throw new Error(`“${path}” is larger than ${MOST_BYTES / 1024 / 1024} MB. Cut the log into pieces.`);
}

export const readingsCommand: Command = {
  usage: "FILE [--from TIME] [--to TIME] [--units UNIT] … [--json]",
  help: [
    "Reads what an instrument logged, any delimited text with a time and a velocity column, and gives the mean over time",
    "of a sweep. It tells what it took for what and why; what the text does not say is asked and never guessed.",
    "",
    "  --from TIME, --to TIME  start and end: seconds after the first row, or a time of day; otherwise suggested",
    "  --time COLUMN           name or number of the column of times; 1+2 for a date and a time of day",
    "  --time-format FORM      ymd, dmy, mdy, clock, m:ss, h, min, s or ms",
    "  --velocity COLUMN       name or number of the column of velocities",
    "  --units UNIT            fpm, m/s, km/h, mph, ft/s, m/min, cm/s or knot",
    "  --range LOW..HIGH       what the instrument can read, in that unit; anything beyond is no reading",
    "  --delimiter SIGN        tab, semicolon, pipe, comma or space",
    "  --decimal MARK          point or comma",
    "  --header ROW            number of the row with the names of the columns; 0 where there is none",
    "  --encoding NAME         utf-8, utf-16le, utf-16be, windows-1252 and others",
    "  --json                  prints findings, rows that are no readings and the result as data",
    "",
    "Ends with status 1 when something has to be answered first, or nothing can be read. docs/logger.md tells more.",
  ],
  options: {
    ...Object.fromEntries(Object.values(OPTION_OF).map((option) => [option, { type: "string" as const }])),
    from: { type: "string" },
    to: { type: "string" },
    json: { type: "boolean" },
  },
  async run(args) {
    const path = onePositional(args, "FILE");
    const choices = choicesOf(args);
    const log = readLog(await bytesOf(path), choices, TextDecoder);
    requireTaken(log, choices);
    const picked = log.series === null || log.problem !== null ? null : pickedOf(args, log.series);
    if (args.options["json"] === true) {
      const { findings, open, rowCount, problem } = log;
      const about = { startText: log.series?.startText, usualIntervalSeconds: log.series?.usualIntervalSeconds };
      console.log(JSON.stringify({ file: path, findings, open, rowCount, problem, ...about, ...picked }));
    } else printLog(path, log, picked);
    return picked?.sweep == null ? EXIT.found : EXIT.done;
  },
};
