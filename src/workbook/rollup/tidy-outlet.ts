import type { OutletRecord } from "./outlet-record.js";
import { TIDY_COLUMNS, type TidyType } from "./tidy-columns.js";

/** A value of the table with a row an outlet; a date as ISO 8601 spells it. */
type TidyValue = string | number | boolean | null;

/** The column that holds a field of an outlet; airflow that is there in both units is read in cfm. */
const COLUMN_OF: Readonly<Record<keyof OutletRecord, string>> = {
  sheet: "sheet",
  row: "row",
  status: "status",
  jobNumber: "job_number",
  jobName: "job_name",
  date: "date",
  technician: "technician",
  system: "system",
  room: "room",
  outlet: "outlet",
  kind: "kind",
  widthIn: "width_in",
  heightIn: "height_in",
  factorRatio: "factor",
  isFactorAssumed: "factor_assumed",
  units: "units",
  designCfm: "design_cfm",
  beforeCfm: "before_cfm",
  afterCfm: "after_cfm",
  measuredCfm: "measured_cfm",
  plusMinusCfm: "plus_minus_cfm",
  percent: "percent_of_design",
  verdict: "verdict",
  note: "note",
  instrument: "instrument",
  instrumentSerial: "instrument_serial",
  calibratedOn: "calibrated_on",
  customer: "customer",
  site: "site",
  foundVerdict: "verdict_found",
  calibrationDueOn: "calibration_due_on",
};

/** Fields that are never null: a text that is not there is "". */
const TEXTS: ReadonlySet<keyof OutletRecord> = new Set([
  "sheet",
  "jobNumber",
  "jobName",
  "technician",
  "system",
  "room",
  "outlet",
  "note",
  "instrument",
  "instrumentSerial",
  "customer",
  "site",
]);

const TYPES: ReadonlyMap<string, TidyType> = new Map(TIDY_COLUMNS.map(({ name, type }) => [name, type]));

const IS_OF_TYPE: Readonly<Record<TidyType, (value: TidyValue) => boolean>> = {
  text: (value) => typeof value === "string",
  date: (value) => typeof value === "string",
  number: (value) => typeof value === "number" && Number.isFinite(value),
  whole: (value) => Number.isInteger(value),
  boolean: (value) => typeof value === "boolean",
};

/** Words that a field may hold. */
const WORDS: Readonly<Partial<Record<keyof OutletRecord, readonly TidyValue[]>>> = {
  status: ["compared", "not measured", "no design", "faulty"],
  kind: ["supply", "return", "exhaust", "outside air", "duct", null],
  units: ["ip", "si", null],
  verdict: ["low", "within", "high", "open", null],
  foundVerdict: ["low", "within", "high", "open", null],
};

/**
 * Makes an outlet again from its row of the table.
 *
 * @param row - By the names of the columns
 * @returns The outlet, or what is wrong with the row, in words that follow "its column"
 */
export function outletOfTidy(
  row: Readonly<Record<string, TidyValue | undefined>>,
): { readonly outlet: OutletRecord; readonly wrong: null } | { readonly outlet: null; readonly wrong: string } {
  const fields: [string, TidyValue][] = [];
  for (const [field, column] of Object.entries(COLUMN_OF) as [keyof OutletRecord, string][]) {
    const value = row[column] ?? null;
    const type = TYPES.get(column) ?? "text";
    const words = WORDS[field];
    const isFit = words === undefined ? value === null || IS_OF_TYPE[type](value) : words.includes(value);
    if (!isFit) return { outlet: null, wrong: `${column} holds “${String(value).slice(0, 40)}”` };
    fields.push([field, value === null && TEXTS.has(field) ? "" : value]);
  }
  const outlet = Object.fromEntries(fields) as unknown as OutletRecord;
  const isCompared = outlet.designCfm !== null && outlet.measuredCfm !== null && outlet.percent !== null;
  if (outlet.status === "compared" && !isCompared)
    return { outlet: null, wrong: "status holds “compared”, without airflow and design" };
  if (!Number.isInteger(outlet.row)) return { outlet: null, wrong: "row holds nothing" };
  return { outlet, wrong: null };
}
