import type { WorkingInput, Workings, WorkingUnit } from "../../core/index.js";
import type { UnitMath } from "./unit-math.js";

/** How mathjs spells the units of workings; null where a number has none. */
const SPELLING: Readonly<Record<WorkingUnit, string | null>> = {
  in: "in",
  ft2: "ft^2",
  fpm: "fpm",
  cfm: "cfm",
  inWG: "inWG",
  "lb/ft3": "lb/ft^3",
  mm: "mm",
  m2: "m^2",
  "m/s": "m/s",
  "L/s": "L/s",
  Pa: "Pa",
  "kg/m3": "kg/m^3",
  s: "s",
  "%": null,
  ratio: null,
};

/**
 * Works every step again from the expression that is shown, by mathjs and with units, and returns each result in the
 * step's own unit.
 *
 * A step takes over what the steps before it gave, so that the last result depends on the whole chain and not on the
 * numbers that core found on the way. mathjs refuses a sum of unlike units, and a result that is not of the step's
 * dimension is refused here.
 *
 * @param workings - Steps from core, in either system of units
 * @param math - mathjs with the trade's units added
 * @throws {Error} When an expression cannot be evaluated or its result has another dimension than its unit
 */
export function evaluateWorkings(workings: Workings, math: UnitMath): readonly number[] {
  const earlier = new Map<string, unknown>();
  return workings.map((step) => {
    const scope = new Map(
      step.inputs.map((input) => [input.symbol, earlier.get(input.symbol) ?? asUnits(input, math)]),
    );
    const result = math.evaluate(step.expression, scope);
    earlier.set(step.symbol, result);
    return inUnit(result, step.unit, `${step.symbol} = ${step.expression}`);
  });
}

function asUnits({ value, unit }: WorkingInput, math: UnitMath): unknown {
  const spelling = SPELLING[unit];
  const one = (number: number) => (spelling === null ? number : math.unit(number, spelling));
  return typeof value === "number" ? one(value) : value.map(one);
}

function inUnit(result: unknown, unit: WorkingUnit, formula: string): number {
  const spelling = SPELLING[unit];
  if (spelling === null) {
    if (typeof result === "number") return result;
    throw new Error(`${formula} should give a number without a unit, but gives ${String(result)}`);
  }
  if (isQuantity(result)) return result.toNumber(spelling);
  throw new Error(`${formula} should give ${unit}, but gives ${String(result)}`);
}

function isQuantity(value: unknown): value is { toNumber(unit: string): number } {
  return typeof value === "object" && value !== null && "toNumber" in value && typeof value.toNumber === "function";
}
