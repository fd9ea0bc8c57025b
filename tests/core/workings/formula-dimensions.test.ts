import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import * as core from "../../../src/core/index.js";
import type { CoreFunction } from "../../../src/tools/sources/core-functions.js";
import { addTradeUnits, type UnitMath } from "../../../src/workbook/index.js";
import { coreFunctions } from "../core-functions.js";
import { FORMULAS, type ListedFormula, NO_EQUATION } from "./formula-list.js";

const mathjs = create(all ?? {});
const math: UnitMath = {
  evaluate: (expression, scope) => mathjs.evaluate(expression, scope),
  unit: (value, unit) => mathjs.unit(value, unit),
  createUnit: (units) => mathjs.createUnit(units),
};
addTradeUnits(math);
// mathjs rounds the first two at the tenth digit and lacks the third; core takes them from their definitions.
mathjs.createUnit("psiExact", "1 lbf/in^2");
mathjs.createUnit("horsepowerExact", "550 ft lbf/s");
mathjs.createUnit("inHgConventional", `${13595.1 * 9.80665 * 0.0254} Pa`);

/** How far mathjs, with its own unit factors, may lie from core. */
const AGREEMENT = 1e-12;

/** Unit of the docstring, spelled for mathjs; "" where a number has none. A temperature is taken from absolute zero. */
const SPELLING: Readonly<Record<string, string>> = {
  in: "in",
  ft: "ft",
  in2: "in^2",
  ft2: "ft^2",
  ft3: "ft^3",
  fpm: "fpm",
  cfm: "cfm",
  "cfm or L/s": "cfm",
  inWG: "inWG",
  inHg: "inHgConventional",
  psi: "psiExact",
  "lb/ft3": "lb/ft^3",
  "lb/lb": "",
  degF: "degR",
  "degF difference": "degR",
  "Btu/h": "BTU/hour",
  "Btu/lb": "BTU/lb",
  "Btu/(h cfm degF)": "BTU/(hour cfm degR)",
  "cfm/ton": "cfm/tonRefrigeration",
  ton: "tonRefrigeration",
  hp: "horsepowerExact",
  rpm: "minute^-1",
  s: "s",
  "1/h": "hour^-1",
  mm: "mm",
  m: "m",
  m2: "m^2",
  m3: "m^3",
  "m/s": "m/s",
  "L/s": "L/s",
  Pa: "Pa",
  "kg/m3": "kg/m^3",
  degC: "K",
  "degC difference": "K",
  "kJ/kg": "kJ/kg",
  W: "W",
  kW: "kW",
  ratio: "",
  "%": "",
  count: "",
  factor: "",
  "same unit": "fpm",
};

/** What lies between a scale's zero and absolute zero. */
const ABSOLUTE: Readonly<Record<string, number>> = { degF: 459.67, degC: 273.15 };

const functions = coreFunctions();
const unitOf = (comment: string | undefined) => comment?.match(/\[([^\]]+)\]\.?$/)?.[1];

describe("each formula, written as an expression over quantities with units,", () => {
  it.each(Object.entries(FORMULAS))("%s has the dimension and the value that core gives", (name, formula) => {
    const declared = functions.find((one) => one.name === name);
    if (declared === undefined) throw new Error(`src/core does not export ${name}`);
    const unit = unitOf(declared.returns) ?? "";
    const evaluated = mathjs.evaluate(formula.expression, scopeOf(declared.parameters, formula));
    const ours = called(name, formula.sample);
    expect(Math.abs(inUnit(evaluated, unit) / ours - 1), `${ours} ${unit}`).toBeLessThan(AGREEMENT);
  });

  it("covers every function that turns quantities into a quantity, or says why it cannot", () => {
    const covered = [...Object.keys(FORMULAS), ...Object.keys(NO_EQUATION)];
    const needed = functions.filter(isBetweenQuantities).map((one) => one.name);
    expect(
      needed.filter((name) => !covered.includes(name)),
      "add its equation to FORMULAS in formula-list.ts, or its reason to NO_EQUATION",
    ).toEqual([]);
    const known = functions.map((one) => one.name);
    expect(covered.filter((name) => !known.includes(name))).toEqual([]);
  });

  it("would notice a wrong dimension", () => {
    const side = mathjs.unit(12, "in");
    expect(() => mathjs.evaluate("w + w^2", { w: side })).toThrow("Units do not match");
    expect(() => inUnit(mathjs.evaluate("w^2", { w: side }), "ft")).toThrow("Units do not match");
    expect(() => inUnit(mathjs.evaluate("w / w", { w: side }), "ft2")).toThrow("ft2 is expected");
  });
});

/** Whether a function's docstring gives a dimension to its result and a unit to one of its arguments at least. */
function isBetweenQuantities(one: CoreFunction): boolean {
  const dimensionless = ["ratio", "count", "factor"];
  const unit = unitOf(one.returns);
  if (!one.returnsNumbers || unit === undefined || dimensionless.includes(unit)) return false;
  return one.parameters.some(({ comment }) => unitOf(comment) !== undefined);
}

function scopeOf(parameters: readonly { name: string; comment: string | undefined }[], formula: ListedFormula) {
  const scope = new Map<string, unknown>();
  parameters.forEach(({ name, comment }, index) => {
    const value = formula.sample[index];
    const unit = unitOf(comment) ?? "";
    if (typeof value === "number") scope.set(name, quantity(value, unit));
    else if (Array.isArray(value)) {
      scope.set(
        name,
        value.map((one: number) => quantity(one, unit)),
      );
    }
  });
  for (const [name, [value, unit]] of Object.entries(formula.also ?? {})) {
    scope.set(name, unit === "" ? value : mathjs.unit(value, unit));
  }
  return scope;
}

function quantity(value: number, unit: string): unknown {
  const spelling = SPELLING[unit];
  if (spelling === undefined && unit !== "") throw new Error(`[${unit}] has no spelling in this test`);
  return spelling ? mathjs.unit(value + (ABSOLUTE[unit] ?? 0), spelling) : value;
}

function inUnit(result: unknown, unit: string): number {
  const spelling = SPELLING[unit];
  if (!spelling) {
    if (typeof result === "number") return result;
    throw new Error(`a number without a unit is expected, but mathjs gives ${String(result)}`);
  }
  if (!mathjs.isUnit(result)) throw new Error(`${unit} is expected, but mathjs gives ${String(result)}`);
  return result.toNumber(spelling) - (ABSOLUTE[unit] ?? 0);
}

function called(name: string, sample: ListedFormula["sample"]): number {
  const formula: unknown = { ...core }[name as keyof typeof core];
  if (typeof formula !== "function") throw new Error(`src/core does not export ${name}`);
  return formula(...sample) as number;
}
