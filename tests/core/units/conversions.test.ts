import fc from "fast-check";
import { createUnit, unit } from "mathjs";
import { describe, expect, it } from "vitest";
import * as core from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, signed } from "../numbers.js";

type Conversion = (value: number) => number;

/** There, back, and how mathjs says the first; mathjs knows neither the inch of water nor that of mercury. */
const pairs: readonly (readonly [there: Conversion, back: Conversion, from: string, to: string])[] = [
  [core.inchesFromMillimeters, core.millimetersFromInches, "mm", "in"],
  [core.feetFromMeters, core.metersFromFeet, "m", "ft"],
  [core.squareFeetFromSquareInches, core.squareInchesFromSquareFeet, "in^2", "ft^2"],
  [core.squareFeetFromSquareMeters, core.squareMetersFromSquareFeet, "m^2", "ft^2"],
  [core.cubicFeetFromCubicMeters, core.cubicMetersFromCubicFeet, "m^3", "ft^3"],
  [core.fpmFromMetersPerSecond, core.metersPerSecondFromFpm, "m/s", "ft/minute"],
  [core.cfmFromLitersPerSecond, core.litersPerSecondFromCfm, "L/s", "ft^3/minute"],
  [core.inchesOfWaterFromPascals, core.pascalsFromInchesOfWater, "Pa", "inWater"],
  [core.psiFromPascals, core.pascalsFromPsi, "Pa", "psi"],
  [core.lbFt3FromKgM3, core.kgM3FromLbFt3, "kg/m^3", "lbm/ft^3"],
  [core.btuPerHourFromWatts, core.wattsFromBtuPerHour, "W", "BTU/hour"],
  [core.btuPerHourFromTons, core.tonsFromBtuPerHour, "coolingTon", "BTU/hour"],
  [core.horsepowerFromKilowatts, core.kilowattsFromHorsepower, "kW", "hp"],
  [core.fahrenheitFromCelsius, core.celsiusFromFahrenheit, "degC", "degF"],
  [core.fahrenheitDifferenceFromCelsius, core.celsiusDifferenceFromFahrenheit, "K", "degR"],
];

createUnit("inWater", "249.08891 Pa");
createUnit("inMercury", "3386.38864 Pa");
createUnit("coolingTon", "12000 BTU/hour");

describe.each(pairs.map((pair) => [pair[0].name, ...pair] as const))("%s", (_name, there, back, from, to) => {
  it("is undone by its inverse", () => {
    fc.assert(
      fc.property(signed, (value) => {
        expect(Math.abs(back(there(value)) - value)).toBeLessThanOrEqual(1e-13 * (Math.abs(value) + 100));
        expect(Math.abs(there(back(value)) - value)).toBeLessThanOrEqual(1e-13 * (Math.abs(value) + 100));
      }),
    );
  });

  // mathjs carries its own factors to some ten digits.
  it.each([-40, 0.25, 1, 70, 1234.5])("agrees with mathjs at %d", (value) => {
    expectSame(there(value), unit(value, from).toNumber(to), 1e-9);
    expectSame(back(value), unit(value, to).toNumber(from), 1e-9);
  });

  it("refuses what is no number, by the name of its argument", () => {
    for (const value of NOT_NUMBERS) {
      for (const conversion of [there, back]) {
        expect(() => conversion(value)).toThrow(/^(\w+) must be a finite number, but is -?(NaN|Infinity)$/);
      }
    }
  });
});

describe("a barometer reading", () => {
  it("agrees with mathjs in pounds-force per square inch", () => {
    expectSame(core.psiFromInchesOfMercury(29.921), unit(29.921, "inMercury").toNumber("psi"), 1e-9);
  });

  it("is refused where it is no number", () => {
    expectRefusal(() => core.psiFromInchesOfMercury(Number.NaN), "pressureInHg", "a finite number", Number.NaN);
  });
});

describe("a number too large to convert", () => {
  it("is refused and not handed on as infinite", () => {
    expectRefusal(
      () => core.squareInchesFromSquareFeet(Number.MAX_VALUE),
      "areaFt2",
      "small enough to calculate with",
      Number.POSITIVE_INFINITY,
    );
  });
});
