import { DESIGN_LIMITS, OUTSIDE_AIR_LIMITS } from "../../../shared/tables/design-limits.js";
import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { handoffFormula } from "../handoff/handoff-formula.js";
import { cell, dateInput, EMPTY_SHEET, type InputRule, listInput, numberInput, textInput } from "./plan-parts.js";
import type { ConditionalFormatPlan, NamePlan, SheetPlan } from "./sheet-plan.js";
import type { FormatName, StyleName } from "./style.js";

/** The sheet that stands once in a workbook, however many templates it holds. */
export const JOB_SHEET = "Job";

interface JobField {
  readonly key: string;
  /** The defined name of an input; null for a result. */
  readonly name: string | null;
  readonly label: string;
  /** What stands there at first, or the formula of a result. */
  readonly start: number | string | null | (() => string);
  readonly style: StyleName;
  readonly format: FormatName;
  /** Null for what follows from the other cells. */
  readonly rule: InputRule | null;
  readonly help: string;
}

/** How the calibration of a meter stands; on which day is said behind it. */
export const CALIBRATION = { valid: "valid", expired: "expired", unstated: "not stated" } as const;

const FIRST_ROW = 4;

function text(key: string, name: string, label: string, help: string): JobField {
  return { key, name, label, start: null, style: "inputText", format: "general", rule: textInput(label, help), help };
}

function number(
  key: string,
  name: string,
  label: string,
  start: number | null,
  [minimum, maximum]: readonly [number | null, number | null],
  help: string,
): JobField {
  const rule = numberInput(label, help.slice(0, 250), minimum, maximum);
  return { key, name, label, start, style: "input", format: "general", rule, help };
}

/** What a person states once for the job. The order is the order on the sheet. */
const FIELDS: readonly (JobField | string)[] = [
  "The job",
  text("id", "Job_Id", "Job number", "As your office files it; the roll-up tells jobs apart by it."),
  text("jobName", "Job_Name", "Job name", "What the job is called."),
  text("customer", "Job_Customer", "Customer", "For whom the work is done."),
  text("site", "Job_Site", "Site", "Where the building is: its name or its address."),
  {
    ...text("date", "Job_Date", "Date measured", "The day of the readings; after an adjustment, of the last ones."),
    format: "date",
    rule: dateInput("Date measured", "The day of the readings, for example 2026-03-31."),
  },
  text("technician", "Job_Technician", "Technician", "Who took the readings."),
  text("instrument", "Job_Instrument", "Instrument", "Kind, manufacturer and model of the meter."),
  text("serial", "Job_InstrumentSerial", "Serial number", "As on the meter and on its certificate."),
  {
    ...text("calibrated", "Job_InstrumentCalibrated", "Calibrated on", "The date on the calibration certificate."),
    format: "date",
    rule: dateInput("Calibrated on", "The date on the calibration certificate."),
  },
  {
    ...text("due", "Job_InstrumentDue", "Calibration due", "The last day on which its calibration holds."),
    format: "date",
    rule: dateInput(
      "Calibration due",
      "The last day on which its calibration holds, as its certificate or your rule says.",
    ),
  },
  {
    key: "calibration",
    name: null,
    label: "Calibration",
    start: calibrationFormula,
    style: "resultText",
    format: "general",
    rule: null,
    help: "Judged on the day measured; without one, today.",
  },
  "Units and air",
  {
    ...text("units", "Job_Units", "Units", ""),
    start: "ip",
    rule: listInput("Units", "ip: in, ft², fpm, cfm, in.w.c., °F. si: mm, m², m/s, L/s, Pa, °C.", ["ip", "si"]),
    help: "ip: in, ft², fpm, cfm, in.w.c., °F, ft. si: mm, m², m/s, L/s, Pa, °C, m. Choose before you type sizes: numbers are not converted.",
  },
  number(
    "elevation",
    "Job_Elevation",
    "Elevation",
    null,
    [-2000, 30000],
    "Of the building above sea level, ft or m. Empty: sea level. A barometer comes before it.",
  ),
  number(
    "temperature",
    "Job_AirTemperature",
    "Air temperature",
    null,
    [-60, 250],
    "Of the air that is measured, °F or °C. Empty: standard air, 0.075 lb/ft³.",
  ),
  number("humidity", "Job_Humidity", "Relative humidity", null, [0, 100], "%, optional; small effect. Empty: dry air."),
  number(
    "barometer",
    "Job_Barometer",
    "Barometer",
    null,
    [15, 110],
    "As read on site, not reduced to sea level: inHg or kPa. Better than the elevation. Empty: from the elevation.",
  ),
  {
    key: "density",
    name: null,
    label: "Density of the air",
    start: densityFormula,
    style: "resultCenter",
    format: "fourDecimals",
    rule: null,
    help: "lb/ft³ or kg/m³, from the cells above; empty without a temperature. For Pitot readings and standard airflow. A thermal meter shows standard velocity: use AIR.ACTUAL or the block thermal.",
  },
  "Limits",
  number(
    "minus",
    "Job_LimitMinus",
    "Allowed below design",
    DESIGN_LIMITS.minusPercent,
    [0, 100],
    "In percent, as the specification of the job says; 0 where nothing is allowed. State both limits, or neither: then 10 %.",
  ),
  number(
    "plus",
    "Job_LimitPlus",
    "Allowed above design",
    DESIGN_LIMITS.plusPercent,
    [0, 1000],
    "In percent, as the specification of the job says.",
  ),
  number(
    "outsideMinus",
    "Job_OutsideAirLimitMinus",
    "Outside air, below design",
    OUTSIDE_AIR_LIMITS.minusPercent,
    [0, 100],
    "In percent. Outside-air inlets are often allowed nothing below design.",
  ),
  number(
    "outsidePlus",
    "Job_OutsideAirLimitPlus",
    "Outside air, above design",
    OUTSIDE_AIR_LIMITS.plusPercent,
    [0, 1000],
    "In percent.",
  ),
  {
    ...text("rule", "Job_DecisionRule", "Decision rule", ""),
    start: "simple",
    rule: listInput("Decision rule", "simple: the airflow as measured is judged. guarded: both ends of its ± are.", [
      "simple",
      "guarded",
    ]),
    help: "simple: the airflow as measured is judged, as most contracts ask. guarded: both ends of its ± must agree; where a limit lies between them the verdict is open.",
  },
  "How good a reading is",
  number(
    "instrumentDoubt",
    "Job_InstrumentPercent",
    "Instrument, ±",
    null,
    [0, 100],
    "In percent of the reading, from its data sheet or certificate. Empty: 10 % is assumed.",
  ),
  number(
    "factorDoubt",
    "Job_FactorPercent",
    "Published factor, ±",
    UNCERTAINTY_DEFAULTS.publishedFactor.plusMinusPercent,
    [0, 100],
    "In percent, for a factor that its manufacturer publishes. A factor that is assumed gets 20 %, an open duct none.",
  ),
  number(
    "areaDoubt",
    "Job_AreaPercent",
    "Area, ±",
    null,
    [0, 100],
    "In percent, from how well the sizes were measured. Empty: 2 % is assumed.",
  ),
  number(
    "repeatDoubt",
    "Job_RepeatPercent",
    "Repeatability",
    null,
    [0, 100],
    "In percent, of the average of repeated sweeps, as UNCERTAINTY.REPEAT gives it. Empty: 5 % is assumed.",
  ),
  number(
    "repeatSweeps",
    "Job_RepeatSweeps",
    "Sweeps it comes from",
    null,
    [2, 1000],
    "How many whole sweeps the repeatability was found from. Without it the repeatability is not used.",
  ),
  number(
    "resolution",
    "Job_InstrumentResolution",
    "Step of the display",
    null,
    [0, 1000],
    "Of its last digit, fpm or m/s. No average of sweeps is known better than that allows. Empty: not known.",
  ),
];

/** Whether the calibration of the job's meter held, and on which day that is judged. */
function calibrationFormula(): string {
  const due = jobCell("due");
  const date = jobCell("date");
  const meter = ["instrument", "serial", "calibrated"].map(jobCell).join(",");
  const on = (day: string, words: string) =>
    `IF(${due}<${day},"${CALIBRATION.expired} ${words}","${CALIBRATION.valid} ${words}")`;
  const judged = `IF(COUNT(${date})=1,${on(date, "on the day measured")},${on("TODAY()", "today")})`;
  return `=IF(COUNT(${due})=0,IF(COUNTA(${meter})=0,"","${CALIBRATION.unstated}"),${judged})`;
}

/** The density in a plain formula, so that a cell function may follow it: none waits for another. */
function densityFormula(): string {
  const [temperature, elevation, humidity] = ["temperature", "elevation", "humidity"].map(jobCell);
  const call = `VANE.AIR.DENSITY(${temperature},${elevation},${humidity},${jobCell("units")},${jobCell("barometer")})`;
  const plain = handoffFormula(call);
  if (plain.kind !== "plain") throw new Error("The density has no plain formula.");
  return `=IF(${temperature}="","",${plain.formula})`;
}

const ROWS: ReadonlyMap<string, number> = new Map(
  FIELDS.flatMap((field, index) => (typeof field === "string" ? [] : [[field.key, FIRST_ROW + index] as const])),
);

/** Spells the cell of a job detail as a formula names it from any sheet: `Job!$B$5`. */
export function jobCell(key: string): string {
  return `${JOB_SHEET}!$B$${jobRow(key)}`;
}

function jobRow(key: string): number {
  const row = ROWS.get(key);
  if (row === undefined) throw new Error(`There is no job detail ${key}.`);
  return row;
}

/** The names of the job's cells. */
export const JOB_NAMES: readonly NamePlan[] = FIELDS.flatMap((field) =>
  typeof field === "string" || field.name === null ? [] : [{ name: field.name, refersTo: jobCell(field.key) }],
);

/** The sheet of job details: the same in every template, so that a workbook with several needs it once. */
export function jobSheet(): SheetPlan {
  const cells = FIELDS.flatMap((field, index) => {
    const row = FIRST_ROW + index;
    if (typeof field === "string") {
      return [cell(`A${row}`, field, "section"), cell(`B${row}`, null, "section"), cell(`C${row}`, null, "section")];
    }
    return [
      cell(`A${row}`, field.label, "label"),
      cell(`B${row}`, typeof field.start === "function" ? field.start() : field.start, field.style, field.format),
      cell(`C${row}`, field.help, "help"),
    ];
  });
  const lastRow = FIRST_ROW + FIELDS.length - 1;
  return {
    ...EMPTY_SHEET,
    name: JOB_SHEET,
    role: "job",
    columnWidths: [25, 26, 92],
    rowHeights: Object.fromEntries([
      [1, 26],
      ...FIELDS.map((field, index) => [FIRST_ROW + index, rowHeight(field)] as const),
    ]),
    cells: [
      cell("A1", "Job details", "title"),
      cell("A2", "Fill the shaded cells. Every other sheet of this workbook reads them here.", "lead"),
      ...cells,
    ],
    validations: FIELDS.flatMap((field, index) =>
      typeof field === "string" || field.rule === null ? [] : [{ range: `B${FIRST_ROW + index}`, ...field.rule }],
    ),
    conditionalFormats: calibrationFormats(`B${jobRow("calibration")}`),
    frozen: { rows: 2, columns: 0 },
    print: { orientation: "landscape", area: `A1:C${lastRow}`, repeatedRows: null, fitToPagesHigh: 1 },
  };
}

/** The looks of what is said of a calibration. */
export function calibrationFormats(range: string): readonly ConditionalFormatPlan[] {
  const [first = ""] = range.split(":");
  return [
    {
      kind: "formula",
      range,
      formula: `LEFT(${first},${CALIBRATION.expired.length})="${CALIBRATION.expired}"`,
      style: "low",
    },
    { kind: "word", range, word: CALIBRATION.unstated, style: "incomplete" },
  ];
}

function rowHeight(field: JobField | string): number {
  if (typeof field === "string") return 20;
  return field.help.length > 105 ? 27 : 15;
}
