import type { UnitSystemName } from "../../core/index.js";
import { type ColumnContent, MAPPED_UNITS, type MappedUnitName, type Measured } from "../lists/index.js";
import type { SheetSource } from "../source/index.js";
import { type ColumnValues, middleOf } from "./column-values.js";
import type { RowFormula } from "./row-formula.js";

/** What a sheet says of its units. */
export interface SheetUnits {
  readonly system: UnitSystemName | null;
  /** Why it is taken for that. */
  readonly reason: string;
  /** The unit of airflows where one heading names it. */
  readonly airflow: MappedUnitName | null;
  /** Units that other headings of the sheet name. */
  readonly named: ReadonlyMap<Measured, MappedUnitName>;
}

/** Readings above this are fpm, and those below the other m/s: no anemometer of this work shows 40 m/s. Common practice, no source. */
const SURELY_FPM = 60;
const SURELY_M_PER_S = 20;

interface Known {
  readonly unit: MappedUnitName | null;
  readonly content: ColumnContent;
  readonly values: ColumnValues;
}

/** Takes the units of a sheet from its headings, or else from its formulas, or else from the size of its readings. */
export function sheetUnits(
  _source: SheetSource,
  _headerRow: number,
  columns: readonly Known[],
  formulas: readonly RowFormula[],
): SheetUnits {
  const named = new Map<Measured, MappedUnitName>();
  const count = { ip: 0, si: 0 };
  for (const { unit } of columns) {
    if (unit === null) continue;
    const { system, measures } = MAPPED_UNITS[unit];
    if (system !== null) count[system] += 1;
    if (!named.has(measures)) named.set(measures, unit);
  }
  const airflow = named.get("airflow") ?? null;
  const of = (system: UnitSystemName | null, reason: string): SheetUnits => ({ system, reason, airflow, named });
  if (count.ip !== count.si) return of(count.ip > count.si ? "ip" : "si", "unit as the other headings have it");
  const constants = formulas.flatMap((formula) => formula.constants);
  if (constants.includes(144)) return of("ip", "the formulas divide by 144");
  if (constants.some((one) => [3600, 1_000_000, 10_000, 3.6].includes(one))) {
    return of("si", "the formulas convert metric units");
  }
  const velocity = middleOf(
    columns.flatMap(({ content, values }) =>
      content.key === "reading" && content.holds !== "seconds" ? values.numbers : [],
    ),
  );
  if (velocity !== undefined && velocity >= SURELY_FPM) return of("ip", "the readings are as large as fpm");
  if (velocity !== undefined && velocity <= SURELY_M_PER_S) return of("si", "the readings are as small as m/s");
  return of(null, "");
}

/** A unit that no heading names. */
export interface GuessedUnit {
  readonly unit: MappedUnitName | null;
  readonly reason: string;
  readonly isSure: boolean;
}

/** In SI a length of outlets is between 50 and 2500 mm: smaller figures are cm or m. Common practice, no source. */
function lengthSi(middle: number): MappedUnitName {
  if (middle >= 60) return "mm";
  return middle >= 5 ? "cm" : "m";
}

function areaUnit(system: UnitSystemName, middle: number): MappedUnitName {
  if (system === "ip") return middle > 8 ? "in2" : "ft2";
  if (middle >= 2000) return "mm2";
  return middle >= 5 ? "cm2" : "m2";
}

/** Guesses the unit of a column from the units of its sheet and from how large its figures are. */
export function guessedUnit(measured: Measured, { numbers }: ColumnValues, units: SheetUnits): GuessedUnit {
  const { system, reason, airflow, named } = units;
  const middle = middleOf(numbers);
  const other = named.get(measured);
  if (measured === "ratio") {
    const isPercent = middle !== undefined && middle > 1.5;
    return { unit: isPercent ? "percentfree" : "ratio", reason: isPercent ? "in percent" : "", isSure: true };
  }
  if (measured === "percent") return { unit: "percent", reason: "", isSure: true };
  if (measured === "seconds") return { unit: "s", reason: "", isSure: true };
  if (other !== undefined) return { unit: other, reason: "unit as the other headings have it", isSure: true };
  if (system === null) return { unit: null, reason: "", isSure: false };
  switch (measured) {
    case "velocity":
      return { unit: system === "ip" ? "fpm" : "ms", reason, isSure: true };
    case "airflow":
      return { unit: system === "ip" ? "cfm" : (airflow ?? "ls"), reason, isSure: system === "ip" || airflow !== null };
    case "length":
      return system === "ip"
        ? { unit: "in", reason, isSure: middle === undefined || (middle >= 2 && middle <= 120) }
        : { unit: lengthSi(middle ?? 300), reason, isSure: middle !== undefined && middle >= 60 };
    case "area":
      return {
        unit: areaUnit(system, middle ?? 1),
        reason,
        isSure: middle !== undefined && system === "ip" && (middle < 4 || middle > 20),
      };
  }
}
