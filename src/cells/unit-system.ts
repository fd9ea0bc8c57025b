import type { UnitSystemName } from "../core/index.js";
import {
  btuPerHourFromWatts,
  btuPerLbFromKilojoulesPerKg,
  celsiusFromFahrenheit,
  cfmFromLitersPerSecond,
  cubicFeetFromCubicMeters,
  fahrenheitDifferenceFromCelsius,
  fahrenheitFromCelsius,
  feetFromMeters,
  fpmFromMetersPerSecond,
  inchesFromMillimeters,
  inchesOfWaterFromPascals,
  kgM3FromLbFt3,
  lbFt3FromKgM3,
  litersPerSecondFromCfm,
  metersPerSecondFromFpm,
  millimetersFromInches,
  squareFeetFromSquareMeters,
  squareMetersFromSquareFeet,
  tonsFromBtuPerHour,
  wattsFromBtuPerHour,
} from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { asSingle, isGiven } from "./read-range.js";

/** Turns what a person enters into core's inch-pound numbers, and core's results back into the person's unit. */
export interface UnitSystem {
  readonly name: UnitSystemName;
  /** Sizes of openings and ducts: in or mm. */
  readonly toIn: (length: number) => number;
  readonly fromIn: (lengthIn: number) => number;
  /** Rooms and elevations: ft or m. */
  readonly toFt: (length: number) => number;
  readonly toFt2: (area: number) => number;
  readonly fromFt2: (areaFt2: number) => number;
  /** Volume of a room: ft3 or m3. */
  readonly toFt3: (volume: number) => number;
  readonly toFpm: (velocity: number) => number;
  readonly fromFpm: (velocityFpm: number) => number;
  readonly toCfm: (flow: number) => number;
  readonly fromCfm: (flowCfm: number) => number;
  readonly toInWg: (pressure: number) => number;
  readonly toF: (temperature: number) => number;
  readonly fromF: (temperatureF: number) => number;
  /** A difference of two temperatures: degF or degC. */
  readonly toDifferenceF: (difference: number) => number;
  readonly toLbFt3: (density: number) => number;
  readonly fromLbFt3: (densityLbFt3: number) => number;
  /** Heat: Btu/h or W. */
  readonly toBtuPerHour: (heat: number) => number;
  readonly fromBtuPerHour: (heatBtuPerHour: number) => number;
  /** Enthalpy: Btu/lb or kJ/kg. */
  readonly toBtuPerLb: (enthalpy: number) => number;
  /** Cooling capacity: tons or kW. */
  readonly toTons: (capacity: number) => number;
  /** Airflow to cooling capacity: cfm per ton or L/s per kW. */
  readonly toCfmPerTon: (ratio: number) => number;
}

const asIs = (value: number) => value;

const INCH_POUND: UnitSystem = {
  name: "ip",
  toIn: asIs,
  fromIn: asIs,
  toFt: asIs,
  toFt2: asIs,
  fromFt2: asIs,
  toFt3: asIs,
  toFpm: asIs,
  fromFpm: asIs,
  toCfm: asIs,
  fromCfm: asIs,
  toInWg: asIs,
  toF: asIs,
  fromF: asIs,
  toDifferenceF: asIs,
  toLbFt3: asIs,
  fromLbFt3: asIs,
  toBtuPerHour: asIs,
  fromBtuPerHour: asIs,
  toBtuPerLb: asIs,
  toTons: asIs,
  toCfmPerTon: asIs,
};

function tonsFromKilowatts(capacityKw: number): number {
  return tonsFromBtuPerHour(btuPerHourFromWatts(1000 * capacityKw));
}

const INTERNATIONAL: UnitSystem = {
  name: "si",
  toIn: inchesFromMillimeters,
  fromIn: millimetersFromInches,
  toFt: feetFromMeters,
  toFt2: squareFeetFromSquareMeters,
  fromFt2: squareMetersFromSquareFeet,
  toFt3: cubicFeetFromCubicMeters,
  toFpm: fpmFromMetersPerSecond,
  fromFpm: metersPerSecondFromFpm,
  toCfm: cfmFromLitersPerSecond,
  fromCfm: litersPerSecondFromCfm,
  toInWg: inchesOfWaterFromPascals,
  toF: fahrenheitFromCelsius,
  fromF: celsiusFromFahrenheit,
  toDifferenceF: fahrenheitDifferenceFromCelsius,
  toLbFt3: lbFt3FromKgM3,
  fromLbFt3: kgM3FromLbFt3,
  toBtuPerHour: btuPerHourFromWatts,
  fromBtuPerHour: wattsFromBtuPerHour,
  toBtuPerLb: btuPerLbFromKilojoulesPerKg,
  toTons: tonsFromKilowatts,
  toCfmPerTon: (ratio) => cfmFromLitersPerSecond(ratio) / tonsFromKilowatts(1),
};

/**
 * Reads the argument `units`; inch-pound when omitted or blank.
 *
 * @throws {CellError} `#VALUE!` when it is neither "ip" nor "si"
 */
export function readUnits(value: unknown): UnitSystem {
  if (value === undefined) return INCH_POUND;
  const single = asSingle(value);
  if (!isGiven(single)) return INCH_POUND;
  const name = typeof single === "string" ? single.trim().toLowerCase() : single;
  if (name === "ip") return INCH_POUND;
  if (name === "si") return INTERNATIONAL;
  throw wrongInput('units must be "ip" (in, ft2, fpm, cfm) or "si" (mm, m2, m/s, L/s).');
}
