/** In which unit a column's figures are, by the unit system of its row. */
export type ColumnUnit = "length" | "area" | "ratio" | "airflow" | "velocity" | "percent" | "seconds" | "date" | "none";

/** Which part of an outlet a column tells. */
export type ColumnRole = "job" | "outlet" | "opening" | "design" | "result" | "remark";

/** One column of a list of outlets. */
export interface ListColumn {
  /** As our templates head it, then every other heading that is read as the same; a unit may stand behind. */
  readonly headings: readonly [string, ...string[]];
  readonly unit: ColumnUnit;
  readonly role: ColumnRole;
  /** What stands in it, for docs/outlet-lists.md. */
  readonly meaning: string;
}

/**
 * Every column of a list of outlets, once. One more heading is one word more here; docs/outlet-lists.md is tested
 * against it.
 */
export const LIST_COLUMNS = {
  jobId: { headings: ["Job number"], unit: "none", role: "job", meaning: "The job as the office files it." },
  jobName: { headings: ["Job name"], unit: "none", role: "job", meaning: "What the job is called." },
  date: { headings: ["Date"], unit: "date", role: "job", meaning: "The day of the last readings." },
  technician: { headings: ["Technician"], unit: "none", role: "job", meaning: "Who took the readings." },
  outlet: {
    headings: ["Outlet"],
    unit: "none",
    role: "outlet",
    meaning: "The outlet's tag, used once; supply, return, exhaust or outside air.",
  },
  system: { headings: ["System"], unit: "none", role: "outlet", meaning: "The fan or unit that serves it." },
  branch: { headings: ["Branch"], unit: "none", role: "outlet", meaning: "The branch of the duct that it is on." },
  room: { headings: ["Room"], unit: "none", role: "outlet", meaning: "The room." },
  kind: {
    headings: ["Kind", "Air"],
    unit: "none",
    role: "outlet",
    meaning: "supply, return, exhaust or outside air, in any case.",
  },
  make: { headings: ["Make and type"], unit: "none", role: "outlet", meaning: "Manufacturer and type." },
  shape: { headings: ["Shape"], unit: "none", role: "opening", meaning: "rectangular or round." },
  width: {
    headings: ["Width or diameter", "Width", "Width or ⌀"],
    unit: "length",
    role: "opening",
    meaning: "Clear width, or the diameter of a round opening.",
  },
  height: { headings: ["Height"], unit: "length", role: "opening", meaning: "Clear height; empty for round." },
  size: {
    headings: ["Size"],
    unit: "length",
    role: "opening",
    meaning: "Width and height in one cell, such as 14x6, or a diameter, such as 12 round.",
  },
  diameter: { headings: ["Diameter", "⌀"], unit: "length", role: "opening", meaning: "Diameter of a round opening." },
  area: {
    headings: ["Opening area"],
    unit: "area",
    role: "opening",
    meaning: "The whole area of the opening, where no size is given.",
  },
  factor: {
    headings: ["Factor", "Free-area factor"],
    unit: "ratio",
    role: "opening",
    meaning: "Free-area factor, above 0 and at most 1; empty: 0.75 is assumed.",
  },
  assumed: {
    headings: ["Factor assumed", "Factor source", "Factor is"],
    unit: "none",
    role: "opening",
    meaning: "yes or assumed where nobody published the factor, no or given otherwise.",
  },
  freeArea: { headings: ["Free area"], unit: "area", role: "opening", meaning: "The part that louvers leave free." },
  effectiveArea: {
    headings: ["Effective area"],
    unit: "area",
    role: "opening",
    meaning: "As the manufacturer publishes it for this way of measuring; no factor is applied to it.",
  },
  velocityFactor: {
    headings: ["Velocity factor"],
    unit: "none",
    role: "opening",
    meaning:
      "Actual over shown velocity, for a thermal meter that shows standard velocity; every reading is multiplied by it.",
  },
  units: {
    headings: ["Units"],
    unit: "none",
    role: "job",
    meaning: "ip for in, fpm, cfm; si for mm, m/s, L/s; for every figure of the row.",
  },
  design: { headings: ["Design airflow", "Design"], unit: "airflow", role: "design", meaning: "What the design asks." },
  share: {
    headings: ["Share"],
    unit: "none",
    role: "design",
    meaning: "Its share of the room's design, beside the shares of the room's other outlets.",
  },
  airflow: { headings: ["Airflow"], unit: "airflow", role: "result", meaning: "The airflow that was measured." },
  standardAirflow: {
    headings: ["Standard airflow"],
    unit: "airflow",
    role: "result",
    meaning: "The same mass of air at standard density.",
  },
  found: {
    headings: ["Airflow before", "Measured before", "Airflow as found"],
    unit: "airflow",
    role: "result",
    meaning: "Airflow as found, before an adjustment.",
  },
  left: {
    headings: ["Airflow after", "Measured after", "Airflow as left"],
    unit: "airflow",
    role: "result",
    meaning: "Airflow as left, after an adjustment.",
  },
  doubt: { headings: ["± percent"], unit: "percent", role: "result", meaning: "± of the airflow (95 %)." },
  plusMinus: {
    headings: ["±", "Plus or minus"],
    unit: "airflow",
    role: "result",
    meaning: "± of the last airflow (95 %).",
  },
  foundPlusMinus: { headings: ["± before"], unit: "airflow", role: "result", meaning: "± of the airflow as found." },
  leftPlusMinus: { headings: ["± after"], unit: "airflow", role: "result", meaning: "± of the airflow as left." },
  percent: {
    headings: ["Percent of design", "% of design"],
    unit: "percent",
    role: "result",
    meaning: "The last airflow in percent of design.",
  },
  foundPercent: { headings: ["Percent before"], unit: "percent", role: "result", meaning: "The same as found." },
  leftPercent: { headings: ["Percent after"], unit: "percent", role: "result", meaning: "The same as left." },
  verdict: {
    headings: ["Verdict"],
    unit: "none",
    role: "result",
    meaning: "low, within or high; open by a guarded rule.",
  },
  decision: {
    headings: ["With ±"],
    unit: "none",
    role: "result",
    meaning: "low, within or high where both ends of the ± agree; open where a limit lies between them.",
  },
  foundVerdict: { headings: ["Verdict before"], unit: "none", role: "result", meaning: "The same as found." },
  leftVerdict: { headings: ["Verdict after"], unit: "none", role: "result", meaning: "The same as left." },
  age: {
    headings: ["Reading is"],
    unit: "none",
    role: "remark",
    meaning: "old where a damper or the fan was changed since the reading; empty otherwise.",
  },
  draw: {
    headings: ["Draw"],
    unit: "none",
    role: "remark",
    meaning: "What a re-test draws by: the lowest numbers are read again.",
  },
  note: { headings: ["Note"], unit: "none", role: "remark", meaning: "Free text." },
} as const satisfies Readonly<Record<string, ListColumn>>;

export type ListColumnKey = keyof typeof LIST_COLUMNS;

export const LIST_COLUMN_KEYS = Object.keys(LIST_COLUMNS) as readonly ListColumnKey[];

/** When an airflow was measured: as it now is, or as found and as left around an adjustment. */
export type ReadingState = "now" | "found" | "left";

/** Columns for single readings: a letter or word, and the number of the reading behind it. */
export interface ReadingHeading {
  readonly prefixes: readonly [string, ...string[]];
  readonly state: ReadingState;
  /** Velocities at points, the mean velocity of a timed sweep, or how long that sweep lasted. */
  readonly holds: "velocity" | "sweep" | "seconds";
  readonly meaning: string;
}

export const READING_HEADINGS: readonly ReadingHeading[] = [
  {
    prefixes: ["R", "Point ", "Reading "],
    state: "now",
    holds: "velocity",
    meaning: "One velocity at the opening.",
  },
  { prefixes: ["B"], state: "found", holds: "velocity", meaning: "One velocity as found, beside its A." },
  { prefixes: ["A"], state: "left", holds: "velocity", meaning: "One velocity as left." },
  { prefixes: ["V"], state: "now", holds: "sweep", meaning: "The average of one timed sweep." },
  { prefixes: ["s"], state: "now", holds: "seconds", meaning: "How long that sweep lasted." },
];

/** Kinds of outlets: each has a total of its own. */
export const OUTLET_KINDS = ["supply", "return", "exhaust", "outside air"] as const;

export type OutletKind = (typeof OUTLET_KINDS)[number];

/** Spells a heading as a template writes it: one that the readers of lists know. */
export function headingOf<Key extends ListColumnKey>(
  key: Key,
  spelled: (typeof LIST_COLUMNS)[Key]["headings"][number] = LIST_COLUMNS[key].headings[0],
): string {
  return spelled;
}
