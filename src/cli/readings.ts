import { basename } from "node:path";
import { openLogFile, zlibCodec } from "../hosts/file/index.js";
import {
  LOG_QUESTIONS,
  type LogChannel,
  type LogChoices,
  LogProblem,
  type LogSegments,
  type LogSeries,
  logMoment,
  logSegments,
  logSweep,
  type ReadLog,
  readLog,
  suggestedSweep,
} from "../logger/index.js";
import { openLogBook } from "../workbook/logged/index.js";
import { type Arguments, type Command, EXIT, UsageError } from "./command.js";
import { type FoundChannel, type FoundLog, OPTION_OF, printLog } from "./log-report.js";
import { type NumberedSweep, printTaken, takenOf } from "./taken-sweeps.js";

function choicesOf({ options }: Arguments): LogChoices {
  const chosen = LOG_QUESTIONS.flatMap((name) => {
    const text = options[OPTION_OF[name]];
    return typeof text === "string" ? [[name, text] as const] : [];
  });
  return Object.fromEntries(chosen);
}

/** Refuses an option that did not take: whoever types one counts on it. */
function requireTaken({ answers, problem }: ReadLog, choices: LogChoices): void {
  if (problem !== null) return;
  for (const name of LOG_QUESTIONS) {
    if (choices[name] === undefined || answers[name].standing === "given") continue;
    const offered = answers[name].choices.map(({ value }) => value).join(", ");
    const wanted = name === "range" ? "LOW..HIGH, such as 0.4..30" : `one of: ${offered}`;
    throw new UsageError(`--${OPTION_OF[name]} ${choices[name]} cannot be used here; it takes ${wanted}.`);
  }
}

function momentOf(text: Arguments["options"][string], option: string, series: LogSeries, otherwise: number): number {
  if (typeof text !== "string") return otherwise;
  const moment = logMoment(text, series);
  if (moment === null) throw new UsageError(`--${option} takes seconds after the first row, or a time of day h:mm:ss.`);
  return moment;
}

function sweepCountOf({ options }: Arguments): number | undefined {
  const text = options["sweeps"];
  if (text === undefined) return undefined;
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1) return count;
  throw new UsageError("--sweeps takes a whole number from 1 up: how many sweeps the log holds.");
}

/** The whole numbers of sweeps that a log allows, as they are offered. */
function offeredCounts({ ways }: LogSegments): string {
  return ways.map(({ segments }) => segments.length).join(" or ");
}

function ownSweep({ options }: Arguments, { series, name }: LogChannel): FoundChannel {
  const from = momentOf(options["from"], "from", series, Number.NEGATIVE_INFINITY);
  const to = momentOf(options["to"], "to", series, Number.POSITIVE_INFINITY);
  const sweep = logSweep(series, from, to);
  const sweeps = sweep === null ? [] : [{ ...sweep, number: 1 }];
  return { name, series, standing: "given", question: "", reason: "As you chose.", sweeps, rests: [], offered: "" };
}

function foundSweeps(args: Arguments, channel: LogChannel): FoundChannel {
  const { options } = args;
  if (options["from"] !== undefined || options["to"] !== undefined) return ownSweep(args, channel);
  const { name, series } = channel;
  const wanted = sweepCountOf(args);
  const found = logSegments(series, wanted);
  const offered = offeredCounts(found);
  if (wanted !== undefined && found.standing !== "given" && found.taken?.segments.length !== wanted) {
    throw new UsageError(`--sweeps ${wanted} cannot be used here; the log can hold ${offered}.`);
  }
  const { taken, standing, question } = found;
  if (taken === null) return { name, series, standing, question, reason: "", sweeps: [], rests: [], offered };
  const [only, another] = taken.segments;
  const suggested = only !== undefined && another === undefined && standing === "found" ? only : undefined;
  const reason = suggested === undefined ? taken.reason : suggestedSweep(series, suggested).reason;
  return { name, series, standing, question, reason, sweeps: taken.segments, rests: taken.rests, offered };
}

async function readFile(path: string, args: Arguments, choices: LogChoices): Promise<FoundLog> {
  const file = await openLogFile(path);
  try {
    const log = readLog(file, choices, TextDecoder, (bytes) => openLogBook(bytes, basename(path), zlibCodec));
    requireTaken(log, choices);
    const channels = log.problem === null ? log.channels.map((channel) => foundSweeps(args, channel)) : [];
    return { file: path, log, channels };
  } finally {
    await file.close();
  }
}

/** A file that cannot be read stops none of the others. */
async function readFileOrSay(path: string, args: Arguments, choices: LogChoices): Promise<FoundLog | LogProblem> {
  try {
    return await readFile(path, args, choices);
  } catch (thrown) {
    if (thrown instanceof UsageError || !(thrown instanceof Error)) throw thrown;
    return new LogProblem(thrown instanceof LogProblem ? `${path}: ${thrown.message}` : thrown.message);
  }
}

/** Sweeps are counted through all channels and files, so that a number means one of them. */
function numbered(logs: readonly FoundLog[]): readonly FoundLog[] {
  let number = 0;
  return logs.map((log) => ({
    ...log,
    channels: log.channels.map((channel) => ({
      ...channel,
      sweeps: channel.sweeps.map((sweep) => {
        number += 1;
        return { ...sweep, number };
      }),
    })),
  }));
}

function sweepsOf(logs: readonly FoundLog[]): readonly NumberedSweep[] {
  return logs.flatMap(({ file, channels }) =>
    channels.flatMap(({ name, sweeps }) =>
      sweeps.map((sweep) => ({ file, channel: channels.length > 1 ? name : "", sweep })),
    ),
  );
}

function asData({ file, log, channels }: FoundLog) {
  const { answers, open, rowCount, problem } = log;
  return {
    file,
    answers,
    open,
    rowCount,
    problem,
    channels: channels.map(({ series, ...channel }) => ({
      ...channel,
      startText: series.startText,
      usualIntervalSeconds: series.usualIntervalSeconds,
    })),
  };
}

const isAnswered = ({ channels }: FoundLog) => channels.length > 0 && channels.every(({ sweeps }) => sweeps.length > 0);

export const readingsCommand: Command = {
  usage: "FILE… [--take 1,3|all] [--sweeps N] [--from TIME] [--to TIME] [--units UNIT] … [--json]",
  help: [
    "Reads what an instrument logged: any delimited text or .xlsx sheet with a time and a velocity column. It finds the",
    "sweeps, the stretches between rests and pauses, each with its average over time, seconds and spread. It says how it",
    "read each column and why; what the file does not say is asked and never guessed. It reads several files at once.",
    "",
    "  --take 1,3 | all        these sweeps together, each weighted with its seconds",
    "  --sweeps N              how many sweeps the log holds, where it allows more than one number",
    "  --from TIME, --to TIME  one sweep from start to end: seconds after the first row, or a time of day",
    "  --time COLUMN           name or number of the column of times; 1+2 for a date and a time of day",
    "  --time-format FORM      ymd, dmy, mdy, clock, m:ss, h, min, s or ms",
    "  --velocity COLUMN       name or number of the column of velocities; 2+3 for two probes",
    "  --units UNIT            fpm, m/s, km/h, mph, ft/s, m/min, cm/s or knot",
    "  --range LOW..HIGH       what the instrument can read, in that unit; anything beyond is not a reading",
    "  --sheet NAME            the sheet of a workbook that holds the log",
    "  --delimiter SIGN        tab, semicolon, pipe, comma or space",
    "  --decimal MARK          point or comma",
    "  --header ROW            number of the row with the names of the columns; 0 where there is none",
    "  --encoding NAME         utf-8, utf-16le, utf-16be, windows-1252 and others",
    "  --json                  prints answers, rows that are no readings and the sweeps as data",
    "",
    "Ends with status 1 when something has to be answered first, or nothing can be read. docs/logger.md tells more.",
  ],
  options: {
    ...Object.fromEntries(Object.values(OPTION_OF).map((option) => [option, { type: "string" as const }])),
    from: { type: "string" },
    to: { type: "string" },
    sweeps: { type: "string" },
    take: { type: "string" },
    json: { type: "boolean" },
  },
  async run(args) {
    const { positionals: paths } = args;
    if (paths.length === 0) throw new UsageError("FILE is missing.");
    const choices = choicesOf(args);
    const read: (FoundLog | LogProblem)[] = [];
    for (const path of paths) read.push(await readFileOrSay(path, args, choices));
    const problems = read.filter((one) => one instanceof LogProblem);
    const logs = numbered(read.filter((one): one is FoundLog => !(one instanceof LogProblem)));
    const sweeps = sweepsOf(logs);
    const taken = takenOf(args.options["take"], sweeps);
    if (args.options["json"] === true) {
      const data = logs.map(asData);
      console.log(JSON.stringify(paths.length === 1 ? { ...data[0], taken } : { files: data, taken }));
    } else {
      logs.forEach((log, index) => {
        if (index > 0) console.log("");
        printLog(log, taken !== null);
      });
      if (taken !== null) printTaken(taken, sweeps, paths.length > 1);
    }
    for (const { message } of problems) console.error(`vanesheet readings: ${message}`);
    return problems.length === 0 && logs.every(isAnswered) ? EXIT.done : EXIT.found;
  },
};
