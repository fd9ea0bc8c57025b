import { litersPerSecondFromCfm } from "../units/airflow.js";
import { squareMetersFromSquareFeet } from "../units/area.js";
import { kgM3FromLbFt3 } from "../units/density.js";
import { millimetersFromInches } from "../units/length.js";
import { pascalsFromInchesOfWater } from "../units/pressure.js";
import { metersPerSecondFromFpm } from "../units/velocity.js";
import type { Workings, WorkingUnit } from "./workings.js";

interface SiUnit {
  readonly unit: WorkingUnit;
  readonly convert: (value: number) => number;
}

const SI_UNITS: Partial<Record<WorkingUnit, SiUnit>> = {
  in: { unit: "mm", convert: millimetersFromInches },
  ft2: { unit: "m2", convert: squareMetersFromSquareFeet },
  fpm: { unit: "m/s", convert: metersPerSecondFromFpm },
  cfm: { unit: "L/s", convert: litersPerSecondFromCfm },
  inWG: { unit: "Pa", convert: pascalsFromInchesOfWater },
  "lb/ft3": { unit: "kg/m3", convert: kgM3FromLbFt3 },
};

function inSi(value: number | readonly number[], unit: WorkingUnit) {
  const si = SI_UNITS[unit];
  if (si === undefined) return { value, unit };
  return { value: typeof value === "number" ? si.convert(value) : value.map(si.convert), unit: si.unit };
}

/**
 * Returns the same steps with every number in SI units.
 *
 * The expressions stay as they are: they hold over quantities with units, whatever the units.
 *
 * Value in SI = value · exact factor of its unit
 *
 * @param workings - Steps in inch-pound units; a number without a unit, in percent or in seconds stays
 * @returns The same steps in mm, m2, m/s, L/s, Pa and kg/m3
 * @throws {DomainError} When a number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * workingsInSi([
 *   { title: "", symbol: "Q", expression: "q", inputs: [], result: 100, unit: "cfm", source: "", assumed: null },
 * ])[0].unit // => "L/s"
 */
export function workingsInSi(workings: Workings): Workings {
  return workings.map((step) => {
    const si = SI_UNITS[step.unit];
    return {
      ...step,
      inputs: step.inputs.map((input) => ({ ...input, ...inSi(input.value, input.unit) })),
      result: si === undefined ? step.result : si.convert(step.result),
      unit: si === undefined ? step.unit : si.unit,
    };
  });
}
