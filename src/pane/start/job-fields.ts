import type { JobDetails } from "../../workbook/index.js";
import { dateSerial } from "../../xlsx/read/date-serial.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { figure } from "../controls/shown-figure.js";

type Units = JobDetails["units"];

/** The details that the pane asks for; the sheet of job details holds more. */
export type AskedDetail = Exclude<keyof JobDetails, "units" | "decisionRule" | "factorPercent" | "areaPercent">;

export interface AskedField {
  readonly detail: AskedDetail;
  readonly label: string;
  readonly kind: "text" | "date" | "number";
  readonly unit: (units: Units) => string;
  readonly hint: string;
  readonly minimum: number | null;
  readonly maximum: number | null;
}

const noUnit = () => "";
const percent = () => "%";

function numberField(
  detail: AskedDetail,
  label: string,
  unit: (units: Units) => string,
  [minimum, maximum]: readonly [number, number],
  hint: string,
): AskedField {
  return { detail, label, kind: "number", unit, hint, minimum, maximum };
}

function plainField(detail: AskedDetail, label: string, kind: "text" | "date", hint: string): AskedField {
  return { detail, label, kind, unit: noUnit, hint, minimum: null, maximum: null };
}

export const JOB_FIELDS: readonly AskedField[] = [
  plainField("jobName", "Job name", "text", ""),
  plainField("dateSerial", "Date measured", "date", ""),
];

export const AIR_FIELDS: readonly AskedField[] = [
  numberField("elevation", "Elevation", (units) => (units === "si" ? "m" : "ft"), [-2000, 30000], "Empty: sea level."),
  numberField(
    "temperature",
    "Air temperature",
    (units) => (units === "si" ? "°C" : "°F"),
    [-60, 250],
    "Of the air that is measured. Empty: standard air.",
  ),
  numberField("humidityPercent", "Relative humidity", percent, [0, 100], "Optional; small effect. Empty: dry air."),
  numberField(
    "barometer",
    "Barometer",
    (units) => (units === "si" ? "kPa" : "inHg"),
    [15, 110],
    "As read on site, not reduced to sea level. Empty: from the elevation.",
  ),
];

export const LIMIT_FIELDS: readonly AskedField[] = [
  numberField(
    "minusPercent",
    "Allowed below design",
    percent,
    [0, 100],
    "From the job's specification; 0 for none. Leave both empty for 10 %.",
  ),
  numberField("plusPercent", "Allowed above design", percent, [0, 1000], ""),
  numberField("outsideMinusPercent", "Outside air, below design", percent, [0, 100], "Often 0."),
  numberField("outsidePlusPercent", "Outside air, above design", percent, [0, 1000], ""),
];

export const INSTRUMENT_FIELDS: readonly AskedField[] = [
  numberField(
    "instrumentPercent",
    "Instrument, ±",
    percent,
    [0, 100],
    "Of the reading, from its data sheet or certificate. Empty: 10 % is assumed.",
  ),
  numberField(
    "repeatPercent",
    "Repeatability",
    percent,
    [0, 100],
    "Of the average of repeated sweeps, as UNCERTAINTY.REPEAT gives it. Empty: 5 % is assumed.",
  ),
  numberField(
    "repeatSweeps",
    "Sweeps it comes from",
    () => "sweeps",
    [2, 1000],
    "Empty: the repeatability is not used.",
  ),
  numberField(
    "resolution",
    "Step of the display",
    (units) => (units === "si" ? "m/s" : "fpm"),
    [0, 1000],
    "The smallest step of the meter's last digit. Empty: not known.",
  ),
];

const DAY_MS = 86_400_000;
const EPOCH_DAYS = 25_569;

/** Returns a date as its field takes it: 2026-03-31. */
function dateText(serial: number): string {
  const milliseconds = (Math.floor(serial) - EPOCH_DAYS) * DAY_MS;
  const isKnown = serial > 60 && Number.isFinite(milliseconds) && Math.abs(milliseconds) < 8.64e15;
  return isKnown ? new Date(milliseconds).toISOString().slice(0, 10) : "";
}

/** Returns a detail as its field shows it. */
export function fieldText({ detail, kind }: AskedField, details: JobDetails): string {
  const value = details[detail];
  if (value === null) return "";
  return kind === "date" && typeof value === "number"
    ? dateText(value)
    : typeof value === "number"
      ? figure(value)
      : value;
}

/** Reads a field: the detail to state, or what is wrong. */
export function readField(
  field: AskedField,
  text: string,
): { readonly value: string | number | null } | { readonly error: string } {
  if (field.kind === "number") return readTypedNumber(text, field.minimum, field.maximum);
  const typed = text.trim();
  if (typed === "" || field.kind === "text") return { value: typed === "" ? null : typed };
  const serial = dateSerial(typed, false);
  return Number.isFinite(serial) ? { value: serial } : { error: "Enter a date, for example 2026-03-31." };
}
