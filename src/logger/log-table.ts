import { isDataRow, isFilledRow as isFilled } from "./data-row.js";
import { asked, assumed, found, given, isOffered, type LogAnswer } from "./log-answer.js";
import { type DecimalMark, isNumberLike } from "./log-number.js";
import type { LogRow } from "./log-rows.js";
import type { LogSource } from "./log-source.js";
import { shortened } from "./shortened.js";
import { isTimeLike } from "./time-format.js";

/** Rarest inside a number first: where two signs part the lines equally well, the earlier one does. */
const DELIMITERS = [
  { value: "tab", label: "tab", sign: "\t" },
  { value: "semicolon", label: "semicolon ;", sign: ";" },
  { value: "pipe", label: "bar |", sign: "|" },
  { value: "comma", label: "comma ,", sign: "," },
  { value: "space", label: "spaces", sign: " " },
] as const;

const DELIMITER_CHOICES = DELIMITERS.map(({ value, label }) => ({ value, label }));

const DECIMAL_CHOICES = [
  { value: "point", label: "point: 1.5" },
  { value: "comma", label: "comma: 1,5" },
] as const;

/** The form of a log shows in its first rows. */
const SAMPLE_ROWS = 400;

/** Lines of explanation before the columns begin are no more than this. */
const MOST_LINES_ABOVE = 100;

interface Fit {
  readonly columns: number;
  /** How many of the rows, from 0 to 1, have as many columns as most. */
  readonly evenness: number;
  readonly dataShare: number;
  /** How many of the fields in rows of data, from 0 to 1, are numbers or times. */
  readonly tellingShare: number;
}

function fit(rows: readonly LogRow[]): Fit {
  const filled = rows.filter(isFilled);
  const body = filled.filter((row) => row.length > 1);
  const counts = new Map<number, number>();
  for (const row of body) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  const [columns, rowsAlike] = [...counts].sort((one, other) => other[1] - one[1])[0] ?? [1, 0];
  const data = filled.filter((row) => row.length === columns && isDataRow(row));
  const fields = data.flat().filter((field) => field.trim() !== "");
  const telling = fields.filter((field) => isNumberLike(field) || isTimeLike(field)).length;
  const whole = Math.max(filled.length, 1);
  return {
    columns,
    evenness: rowsAlike / whole,
    dataShare: data.length / whole,
    tellingShare: telling / Math.max(fields.length, 1),
  };
}

/**
 * A sign parts the lines when half of them at least become rows of data of the same width. Among such signs the one that
 * leaves most numbers and times whole is taken: a comma splits 12:00:01;1,25 as well, but not into anything.
 */
const ENOUGH = 0.5;

function delimiterOf({ sample }: LogSource): LogAnswer {
  const fits = DELIMITERS.map((delimiter) => ({ ...delimiter, ...fit(sample(delimiter.sign, SAMPLE_ROWS)) }));
  const best = fits
    .filter(({ columns, dataShare }) => columns >= 2 && dataShare >= ENOUGH)
    .toSorted((one, other) => other.tellingShare - one.tellingShare)[0];
  const fallback = fits.toSorted((one, other) => other.dataShare - one.dataShare)[0];
  const taken = best ?? (fallback !== undefined && fallback.dataShare > 0 ? fallback : undefined);
  if (taken === undefined) return asked("No sign parts the lines into a time and a number.", DELIMITER_CHOICES);
  const share = Math.round(taken.evenness * 100);
  return found(taken.value, `It parts ${share} % of the lines into ${taken.columns} columns.`, DELIMITER_CHOICES);
}

/** A number with one mark only, three digits behind it, and no zero alone before it: 1,250 or 1.250. */
const EITHER = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;

const MARKED = /^[+-]?\d[\d'’ ]*[.,]\d+$/;

function decimalOf(rows: readonly LogRow[], delimiter: string): LogAnswer {
  const numbers = rows.flatMap((row) => row.map((field) => field.trim()).filter((field) => MARKED.test(field)));
  const mixed = rows.flatMap((row) =>
    row.filter((field) => /^[+-]?\d{1,3}([.,])\d{3}(?!\1)[.,]\d+$/.test(field.trim())),
  );
  const telling = numbers.filter((field) => !EITHER.test(field));
  const points = telling.filter((field) => field.includes(".")).length;
  const commas = telling.filter((field) => field.includes(",")).length;
  const last = mixed[0]?.trim().match(/[.,](?=\d+$)/)?.[0];
  if (last !== undefined) {
    const value = last === "." ? "point" : "comma";
    return found(
      value,
      `“${shortened(mixed[0]?.trim() ?? "")}” has both marks; the last is that of the decimals.`,
      DECIMAL_CHOICES,
    );
  }
  if (points > 0 && commas > 0) {
    return asked("Some numbers have a comma before their decimals, some a point.", DECIMAL_CHOICES);
  }
  const example = telling[0];
  if (points > 0) return found("point", `As in “${shortened(example ?? "")}”.`, DECIMAL_CHOICES);
  if (commas > 0) return found("comma", `As in “${shortened(example ?? "")}”.`, DECIMAL_CHOICES);
  if (numbers.length === 0) return assumed("point", "No number has decimals.", DECIMAL_CHOICES);
  if (delimiter === "comma" && numbers.every((field) => field.includes("."))) {
    return found("point", "The comma parts the columns.", DECIMAL_CHOICES);
  }
  return asked(`“${shortened(numbers[0] ?? "")}” can be above a thousand, or a little above one.`, DECIMAL_CHOICES);
}

function rowsAboveData(rows: readonly LogRow[]): number {
  const width = fit(rows).columns;
  const first = rows.slice(0, MOST_LINES_ABOVE).findIndex((row) => row.length === width && isDataRow(row));
  return Math.max(first, 0);
}

/** Row numbers as choices: 0 where no row names the columns. */
function headerChoices(rows: readonly LogRow[], above: number) {
  const named = rows
    .slice(0, above + 1)
    .flatMap((row, index) =>
      isFilled(row)
        ? [{ value: String(index + 1), label: `row ${index + 1}: ${row.slice(0, 20).join(" | ").slice(0, 60)}` }]
        : [],
    );
  return [{ value: "0", label: "no row names the columns" }, ...named];
}

const isName = (field: string) => /\p{L}/u.test(field) && !isNumberLike(field) && !isTimeLike(field);

function headerOf(rows: readonly LogRow[], above: number): LogAnswer {
  const choices = headerChoices(rows, above);
  const width = rows[above]?.length ?? 0;
  // Units may stand in a row of their own under the names: the names are then the upper one of two full rows.
  const full = rows
    .slice(0, above)
    .map((row, index) => ({ row, index }))
    .filter(({ row }) => row.length >= Math.min(width, 2) && row.filter(isName).length >= 2);
  const last = full.at(-1);
  if (last === undefined) return found("0", "The first row is data already.", choices);
  const before = full.at(-2);
  const isUnitsRow =
    before !== undefined && before.index === last.index - 1 && before.row.length === last.row.length && width > 1;
  const header = isUnitsRow ? before : last;
  const below = isUnitsRow ? ", with a row of units below" : "";
  return found(String(header.index + 1), `The last row of names above the data${below}.`, choices);
}

/** How a log comes apart into rows and columns, and its first rows. */
export interface LogTable {
  /** The first rows, from the file's first on. */
  readonly sample: readonly LogRow[];
  /** All rows of the file; none while nobody knows what parts the columns. */
  readonly rows: () => Iterable<LogRow>;
  readonly delimiter: LogAnswer;
  readonly decimal: LogAnswer;
  readonly header: LogAnswer;
  /** Index of the first row of data. */
  readonly firstRow: number;
}

interface TableChoices {
  readonly delimiter?: string;
  readonly decimal?: string;
  readonly header?: string;
}

const PARTED = found("cells", "Its columns are those of the sheet.", []);
const AS_NUMBERS = found("point", "The cells hold numbers.", []);

/**
 * Parts a log into rows: which sign is between the columns, which before the decimals, and which row names them.
 *
 * @throws {LogProblem} When a row of the sample is longer than any log's
 */
export function logTable(source: LogSource, chosen: TableChoices): LogTable {
  const delimiter = source.isParted
    ? PARTED
    : isOffered(DELIMITER_CHOICES, chosen.delimiter)
      ? given(chosen.delimiter, DELIMITER_CHOICES)
      : delimiterOf(source);
  const sign = source.isParted ? "" : DELIMITERS.find(({ value }) => value === delimiter.value)?.sign;
  const sample = sign === undefined ? [] : source.sample(sign, MOST_LINES_ABOVE + 2 * SAMPLE_ROWS);
  const above = rowsAboveData(sample.slice(0, SAMPLE_ROWS));
  const decimal = isOffered(DECIMAL_CHOICES, chosen.decimal)
    ? given(chosen.decimal, DECIMAL_CHOICES)
    : source.isParted
      ? AS_NUMBERS
      : decimalOf(sample.slice(above, above + SAMPLE_ROWS), delimiter.value ?? "");
  const choices = headerChoices(sample, above);
  const header = isOffered(choices, chosen.header) ? given(chosen.header, choices) : headerOf(sample, above);
  return {
    sample,
    rows: () => (sign === undefined ? [] : source.rows(sign)),
    delimiter,
    decimal,
    header,
    firstRow: Math.max(above, Number(header.value)),
  };
}

/** Whether a decimal mark has been settled. */
export function isDecimalMark(value: string | null): value is DecimalMark {
  return value === "point" || value === "comma";
}
