import {
  fpmFromMetersPerSecond,
  squareFeetFromSquareInches,
  squareMetersFromSquareFeet,
  type UnitSystemName,
} from "../../core/index.js";

/** What a unit measures. */
export type Measured = "length" | "area" | "ratio" | "airflow" | "velocity" | "percent" | "seconds";

/** A unit in which a column of somebody's own sheet may be. */
export interface MappedUnit {
  /** As a person reads it. */
  readonly shown: string;
  /** What measures it. */
  readonly measures: Measured;
  /** To which system its base unit belongs; null for what both have. */
  readonly system: UnitSystemName | null;
  /** Times a figure gives it in the base unit: in, ft², cfm, fpm; mm, m², L/s, m/s; a ratio of 1; percent; seconds. */
  readonly scale: number;
  /** As it stands in headings, in small letters. */
  readonly spellings: readonly string[];
}

const SQUARE_METERS_OF_A_SQUARE_FOOT = squareMetersFromSquareFeet(1);

/** Every unit of a column, by the word that the workbook keeps. */
export const MAPPED_UNITS = {
  in: {
    shown: "in",
    measures: "length",
    system: "ip",
    scale: 1,
    spellings: ["in", "in.", "inch", "inches", '"', "pulg", "pulgadas", "zoll"],
  },
  ft: { shown: "ft", measures: "length", system: "ip", scale: 12, spellings: ["ft", "ft.", "feet", "'"] },
  mm: { shown: "mm", measures: "length", system: "si", scale: 1, spellings: ["mm"] },
  cm: { shown: "cm", measures: "length", system: "si", scale: 10, spellings: ["cm"] },
  m: { shown: "m", measures: "length", system: "si", scale: 1000, spellings: ["m"] },
  ft2: {
    shown: "ft²",
    measures: "area",
    system: "ip",
    scale: 1,
    spellings: ["ft²", "ft2", "ft^2", "sq ft", "sq. ft.", "sqft", "sf", "square feet", "pies²"],
  },
  in2: {
    shown: "in²",
    measures: "area",
    system: "ip",
    scale: squareFeetFromSquareInches(1),
    spellings: ["in²", "in2", "in^2", "sq in", "sq. in.", "sqin", "square inches"],
  },
  m2: { shown: "m²", measures: "area", system: "si", scale: 1, spellings: ["m²", "m2", "m^2", "qm"] },
  cm2: { shown: "cm²", measures: "area", system: "si", scale: 1e-4, spellings: ["cm²", "cm2", "cm^2"] },
  mm2: { shown: "mm²", measures: "area", system: "si", scale: 1e-6, spellings: ["mm²", "mm2", "mm^2"] },
  cfm: {
    shown: "cfm",
    measures: "airflow",
    system: "ip",
    scale: 1,
    spellings: ["cfm", "acfm", "ft³/min", "ft3/min", "pcm"],
  },
  ls: { shown: "L/s", measures: "airflow", system: "si", scale: 1, spellings: ["l/s", "ls", "lps", "l/sec"] },
  m3h: {
    shown: "m³/h",
    measures: "airflow",
    system: "si",
    scale: 1000 / 3600,
    spellings: ["m³/h", "m3/h", "m3h", "m³/hr", "m3/hr", "cmh", "cbm/h"],
  },
  m3s: { shown: "m³/s", measures: "airflow", system: "si", scale: 1000, spellings: ["m³/s", "m3/s", "m3s"] },
  fpm: {
    shown: "fpm",
    measures: "velocity",
    system: "ip",
    scale: 1,
    spellings: ["fpm", "ft/min", "ft./min", "ft/min."],
  },
  ms: { shown: "m/s", measures: "velocity", system: "si", scale: 1, spellings: ["m/s", "ms", "m/sec", "mps"] },
  s: {
    shown: "s",
    measures: "seconds",
    system: null,
    scale: 1,
    spellings: ["s", "sec", "sec.", "secs", "seconds", "seg", "sek"],
  },
  ratio: { shown: "ratio", measures: "ratio", system: null, scale: 1, spellings: ["ratio"] },
  percentfree: { shown: "%", measures: "ratio", system: null, scale: 0.01, spellings: [] },
  percent: { shown: "%", measures: "percent", system: null, scale: 1, spellings: ["%", "pct", "percent", "prozent"] },
  fraction: { shown: "part of 1", measures: "percent", system: null, scale: 100, spellings: [] },
} as const satisfies Readonly<Record<string, MappedUnit>>;

export type MappedUnitName = keyof typeof MAPPED_UNITS;

export const MAPPED_UNIT_NAMES = Object.keys(MAPPED_UNITS) as readonly MappedUnitName[];

/** A unit of a column by its word. */
export const mappedUnit = (name: MappedUnitName): MappedUnit => MAPPED_UNITS[name];

/** An area of a column's base unit in ft². */
export const squareFeetOf = (area: number, system: UnitSystemName | null) =>
  system === "si" ? area / SQUARE_METERS_OF_A_SQUARE_FOOT : area;

/** A velocity of a column's base unit in fpm. */
export const fpmOf = (velocity: number, system: UnitSystemName | null) =>
  system === "si" ? fpmFromMetersPerSecond(velocity) : velocity;
