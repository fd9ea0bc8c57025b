import { asked, assumed, found, given, isOffered, type LogAnswer } from "./log-answer.js";
import { columnChoices, type LogColumn, namedColumn } from "./log-columns.js";
import { isNumberLike, logNumber } from "./log-number.js";
import { shortened } from "./shortened.js";
import { isDateOnly, isTimeLike, TIME_FORMATS, type TimeFormat } from "./time-format.js";

/** What people call a column of times, in the languages that logs are met in. From memory, unverified. */
const TIME_NAME = /time|date|elapsed|second|\bsec\b|zeit|uhr|datum|heure|temps|hora|fecha|tiempo|tid\b|^t\b|^s$/i;

/** Counts of rows rise as times do, but are none. */
const COUNT_NAME = /^(no|nr|n|#|index|idx|id|sample|record|count|row|point)s?\.?$/i;

/** Of the fields in a column, so many are of the kind that it holds; the others are slips. */
const MOST = 0.6;

const isMostlyTimes = ({ timeShare }: LogColumn) => timeShare >= MOST;
const isDates = ({ sample, timeShare }: LogColumn) => timeShare >= MOST && sample.every((field) => isDateOnly(field));

function risesSteadily({ sample, numberShare }: LogColumn): boolean {
  if (numberShare < MOST) return false;
  const values = sample.flatMap((field) => logNumber(field, "point") ?? logNumber(field, "comma") ?? []);
  const neverFalls = values.every((value, index) => index === 0 || value >= (values[index - 1] ?? value));
  return neverFalls && (values.at(-1) ?? 0) > (values[0] ?? 0);
}

function timeChoices(columns: readonly LogColumn[]) {
  const pairs = columns.flatMap((date) =>
    isDates(date)
      ? columns
          .filter((clock) => isMostlyTimes(clock) && !isDates(clock))
          .map((clock) => ({
            value: `${date.index + 1}+${clock.index + 1}`,
            label: `columns ${date.index + 1} and ${clock.index + 1}: date and time of day`,
          }))
      : [],
  );
  return [...pairs, ...columnChoices(columns)];
}

/** Returns the columns, one or two, that a value such as "1" or "1+2" names. */
export function timeColumns(columns: readonly LogColumn[], value: string | null): readonly LogColumn[] {
  return (value ?? "").split("+").flatMap((text) => namedColumn(columns, text) ?? []);
}

/** Finds which column holds the times: dates and times of day by their form, elapsed time by its name or its rising. */
export function findTime(columns: readonly LogColumn[], chosen: string | undefined): LogAnswer {
  const choices = timeChoices(columns);
  if (chosen !== undefined) {
    const value = timeColumns(columns, chosen)
      .map(({ index }) => String(index + 1))
      .join("+");
    if (value !== "" && value.split("+").length === chosen.split("+").length) return given(value, choices);
    return asked(`No column is called “${shortened(chosen)}”.`, choices);
  }
  const pair = choices.find(({ value }) => value.includes("+"));
  if (pair !== undefined) return found(pair.value, "One column holds dates, the other times of day.", choices);
  const written = columns.filter(isMostlyTimes);
  const named = written.filter(({ name }) => TIME_NAME.test(name));
  const only = named.length === 1 ? named[0] : written.length === 1 ? written[0] : undefined;
  if (only !== undefined)
    return found(String(only.index + 1), `Its fields are times, such as ${only.sample[0]}.`, choices);
  if (written.length > 1) return asked("More than one column holds times.", choices);
  const rising = columns.filter((column) => risesSteadily(column) && !COUNT_NAME.test(column.name));
  const risingNamed = rising.filter(({ name }) => TIME_NAME.test(name));
  const one = risingNamed[0];
  if (one !== undefined && risingNamed.length === 1) {
    return found(String(one.index + 1), "Its name says time, and its numbers rise.", choices);
  }
  return asked(
    rising.length === 0
      ? "No column holds times, or numbers that rise as time does."
      : "No column is named as time; which one rises with it?",
    choices,
  );
}

const formats = (...values: readonly TimeFormat[]) => TIME_FORMATS.filter(({ value }) => values.includes(value));
const DATED = formats("dmy", "mdy");
const CLOCKS = formats("clock", "m:ss");
const ELAPSED = formats("h", "min", "s", "ms");

const SECONDS_NAME = /second|\bsec\b|\[s\]|\(s\)|[,_/ ]s$|^s$|sekunde/i;
const MILLISECONDS_NAME = /millisecond|\bms\b|\bmsec\b/i;
const MINUTES_NAME = /minute|\bmin\b/i;
const HOURS_NAME = /hour|\[h\]|\(h\)|\bhrs?\b|[,_/ ]h$/i;

function elapsedFormat({ name }: LogColumn): LogAnswer {
  if (MILLISECONDS_NAME.test(name)) return found("ms", `Its name is “${name}”.`, TIME_FORMATS);
  if (SECONDS_NAME.test(name)) return found("s", `Its name is “${name}”.`, TIME_FORMATS);
  if (MINUTES_NAME.test(name)) return found("min", `Its name is “${name}”.`, TIME_FORMATS);
  if (HOURS_NAME.test(name)) return found("h", `Its name is “${name}”.`, TIME_FORMATS);
  return asked("The text does not say whether these are seconds, minutes or hours.", ELAPSED);
}

/** Whether the earlier or the later of two leading numbers of a date is above 12, and so the day. */
function dayPlaces(dates: readonly string[]): { readonly first: boolean; readonly second: boolean } {
  const pairs = dates.map((field) => /^(\d{1,2})[-/.](\d{1,2})/.exec(field));
  return {
    first: pairs.some((pair) => Number(pair?.[1]) > 12),
    second: pairs.some((pair) => Number(pair?.[2]) > 12),
  };
}

function datedFormat(fields: readonly string[]): LogAnswer {
  const { first, second } = dayPlaces(fields);
  const example = fields[0] ?? "";
  if (first && second) return asked("In some dates the day comes first, in others the month.", DATED);
  if (first) return found("dmy", "A first number is above 12, so it is the day.", TIME_FORMATS);
  if (second) return found("mdy", "A second number is above 12, so it is the day.", TIME_FORMATS);
  if (/^\d{1,2}\.\d{1,2}\./.test(example)) {
    return assumed("dmy", "Dates with points are usually written day first (common practice).", TIME_FORMATS);
  }
  return asked(`Does the day or the month come first in ${example.split(/\s/)[0]}?`, DATED);
}

function clockFormat(fields: readonly string[]): LogAnswer {
  if (fields.some((field) => /^\d+:\d{2}:\d{2}|m\.?$/i.test(field))) {
    return found("clock", `Hours, minutes and seconds, as in ${fields[0]}.`, TIME_FORMATS);
  }
  if (fields.some((field) => /^\d+:\d{2}[.,]\d/.test(field) || Number(field.split(":")[0]) > 24)) {
    return found("m:ss", `Minutes and seconds, as in ${fields[0]}.`, TIME_FORMATS);
  }
  return asked(`Is ${fields[0]} hours and minutes, or minutes and seconds?`, CLOCKS);
}

/** Finds how the times are written; which of day and month comes first, and the unit of elapsed time, are never guessed. */
export function findTimeFormat(times: readonly LogColumn[], chosen: string | undefined): LogAnswer {
  if (isOffered(TIME_FORMATS, chosen)) return given(chosen, TIME_FORMATS);
  const [first] = times;
  if (first === undefined) return asked("Choose the column of times first.", []);
  const fields = first.sample.filter((field) => isTimeLike(field));
  if (fields.length === 0 || (first.numberShare >= MOST && first.sample.every(isNumberLike)))
    return elapsedFormat(first);
  if (fields.some((field) => /^\d{4}[-/.]/.test(field))) return found("ymd", `As in ${fields[0]}.`, TIME_FORMATS);
  if (fields.some((field) => /^\d{1,2}[-/.]\d{1,2}[-/.]/.test(field))) return datedFormat(fields);
  return clockFormat(fields);
}

export function isTimeFormat(value: string | null): value is TimeFormat {
  return TIME_FORMATS.some((format) => format.value === value);
}
