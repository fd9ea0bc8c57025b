import type { AnswerChoice } from "./log-answer.js";
import { LOG_LIMITS, LogProblem } from "./log-limits.js";
import { isNumberLike } from "./log-number.js";
import type { LogTable } from "./log-table.js";
import { shortened } from "./shortened.js";
import { isTimeLike } from "./time-format.js";
import { type VelocityUnitName, velocityUnit, velocityUnitIn } from "./velocity-unit.js";

/** So many rows show what a column holds. */
const SAMPLE_ROWS = 400;

/** A longer name of a column is a text that stands above it. */
const MOST_NAME = 200;

/** One column of a log, as far as its name and its first rows tell. */
export interface LogColumn {
  readonly index: number;
  /** Its name in the file; empty where none stands there. */
  readonly name: string;
  /** The velocity unit that its name, the row below or its fields say. */
  readonly unit: VelocityUnitName | null;
  readonly where: "name" | "fields" | null;
  /** Filled fields of the sample, without blanks around them. */
  readonly sample: readonly string[];
  readonly numberShare: number;
  readonly timeShare: number;
}

/** A number with its unit behind it, as some logs have in every field. */
const WITH_UNIT = /^([+-−–]?[\d.,'’\s]*\d[\d.,]*)\s*([^\d\s.,].*)$/;

/** Parts `1.25 m/s` into its number and its unit; a number alone has no unit. */
export function numberAndUnit(field: string): { readonly number: string; readonly unit: VelocityUnitName | null } {
  if (field.length > LOG_LIMITS.fieldCharacters) return { number: field, unit: null };
  const [, number, behind] = WITH_UNIT.exec(field.trim()) ?? [];
  const unit = behind === undefined ? null : velocityUnit(behind);
  return number === undefined || unit === null ? { number: field, unit: null } : { number, unit };
}

function shareOf(fields: readonly string[], holds: (field: string) => boolean): number {
  return fields.length === 0 ? 0 : fields.filter(holds).length / fields.length;
}

/** Returns the columns of a log by what their names and first rows say. */
export function logColumns({ sample: rows, header, firstRow }: LogTable): readonly LogColumn[] {
  const names = rows[Number(header.value) - 1] ?? [];
  const below = Number(header.value) > 0 && Number(header.value) < firstRow ? (rows[firstRow - 1] ?? []) : [];
  const sampled = rows
    .slice(firstRow, firstRow + SAMPLE_ROWS)
    .filter((row) => row.some((field) => field.trim() !== ""));
  const width = Math.max(names.length, ...sampled.map((row) => row.length), 0);
  if (width > LOG_LIMITS.columns) {
    throw new LogProblem(
      `The log has ${width} columns, more than ${LOG_LIMITS.columns}. Perhaps another separator is in use.`,
    );
  }
  return Array.from({ length: width }, (_, index) => {
    const name = names[index]?.trim().slice(0, MOST_NAME) ?? "";
    const sample = sampled.map((row) => row[index]?.trim() ?? "").filter((field) => field !== "");
    const inFields = sample.map((field) => numberAndUnit(field).unit).find((unit) => unit !== null) ?? null;
    const inName = velocityUnitIn(name) ?? velocityUnit(below[index] ?? "");
    return {
      index,
      name,
      unit: inName ?? inFields,
      where: inName !== null ? "name" : inFields !== null ? "fields" : null,
      sample,
      numberShare: shareOf(sample, (field) => isNumberLike(numberAndUnit(field).number)),
      timeShare: shareOf(sample, isTimeLike),
    };
  });
}

/** How a column is called to a person: its name, or its place where it has none. */
export function columnLabel({ name, index, sample }: LogColumn): string {
  if (name !== "") return `${index + 1}: ${name}`;
  return sample[0] === undefined ? `column ${index + 1}` : `column ${index + 1}, such as ${shortened(sample[0])}`;
}

export function columnChoices(columns: readonly LogColumn[]): readonly AnswerChoice[] {
  return columns.map((column) => {
    const label = columnLabel(column);
    return { value: String(column.index + 1), label: column.name === "" ? label : `column ${label}` };
  });
}

/** Finds the column that a person means by its number or its name; undefined where none or several have it. */
export function namedColumn(columns: readonly LogColumn[], text: string): LogColumn | undefined {
  const plain = text.trim().toLowerCase();
  const numbered = columns.find(({ index }) => String(index + 1) === plain);
  if (numbered !== undefined) return numbered;
  const named = columns.filter(({ name }) => name !== "" && name.toLowerCase() === plain);
  return named.length === 1 ? named[0] : undefined;
}
