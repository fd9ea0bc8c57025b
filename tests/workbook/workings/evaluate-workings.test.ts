import fc from "fast-check";
import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  airflow,
  airflowBudget,
  averageVelocity,
  averageVelocityFromPressures,
  type DuctMeasurement,
  ductWorkings,
  type FaceMeasurement,
  faceAirflow,
  faceWorkings,
  type OpeningSize,
  percentOfDesign,
  rectangleArea,
  type Workings,
  workingsInSi,
} from "../../../src/core/index.js";
import { addTradeUnits, evaluateWorkings, type UnitMath } from "../../../src/workbook/index.js";

const mathjs = create(all ?? {});
const math: UnitMath = {
  evaluate: (expression, scope) => mathjs.evaluate(expression, scope),
  unit: (value, unit) => mathjs.unit(value, unit),
  createUnit: (units) => mathjs.createUnit(units),
};
addTradeUnits(math);

/** How far mathjs, with its own inexact unit factors, may lie from core. */
const AGREEMENT = 1e-12;

function expectAgreement(workings: Workings): void {
  const evaluated = evaluateWorkings(workings, math);
  workings.forEach((step, index) => {
    const difference = Math.abs((evaluated[index] ?? Number.NaN) - step.result);
    expect(difference, `${step.title}: ${step.symbol} = ${step.expression}`).toBeLessThanOrEqual(
      AGREEMENT * Math.max(Math.abs(step.result), Number.MIN_VALUE),
    );
  });
}

const length = fc.double({ min: 1, max: 100, noNaN: true });
const velocity = fc.double({ min: 1, max: 4000, noNaN: true });
const size: fc.Arbitrary<OpeningSize> = fc.oneof(
  fc.record({ shape: fc.constant("rectangle" as const), widthIn: length, heightIn: length }),
  fc.record({ shape: fc.constant("round" as const), diameterIn: length }),
  fc.tuple(length, length).map(([one, other]) => ({
    shape: "flat oval" as const,
    majorIn: Math.max(one, other),
    minorIn: Math.min(one, other),
  })),
);
const budget = airflowBudget({
  instrumentPercent: 8,
  factorPercent: "assumed",
  areaPercent: 2,
  repeatPercent: 2,
  repeatDegreesOfFreedom: 4,
  points: null,
  pitot: null,
});
const context = { designCfm: fc.option(velocity), budget: fc.option(fc.constant(budget)) };
const face: fc.Arbitrary<FaceMeasurement> = fc.record({
  ...context,
  size,
  freeAreaRatio: fc.option(fc.double({ min: 0.05, max: 1, noNaN: true })),
  effectiveAreaFt2: fc.constant(null),
  readings: fc.oneof(
    fc.record({
      kind: fc.constant("points" as const),
      velocitiesFpm: fc.array(velocity, { minLength: 1, maxLength: 25 }),
    }),
    fc
      .array(fc.tuple(velocity, fc.double({ min: 1, max: 120, noNaN: true })), { minLength: 1, maxLength: 4 })
      .map((sweeps) => ({
        kind: "sweeps" as const,
        velocitiesFpm: sweeps.map(([fpm]) => fpm),
        timesSeconds: sweeps.map(([, seconds]) => seconds),
      })),
  ),
});
const duct: fc.Arbitrary<DuctMeasurement> = fc.record({
  ...context,
  size,
  readings: fc.oneof(
    fc.record({
      kind: fc.constant("velocities" as const),
      velocitiesFpm: fc.array(velocity, { minLength: 1, maxLength: 25 }),
    }),
    fc.record({
      kind: fc.constant("pressures" as const),
      pressuresInWg: fc.array(
        fc.integer({ min: -100, max: 20000 }).map((steps) => steps / 10000),
        { minLength: 1, maxLength: 25 },
      ),
      densityLbFt3: fc.double({ min: 0.04, max: 0.09, noNaN: true }),
      densityBasis: fc.constantFrom("stated" as const, "assumed" as const),
      pitotFactor: fc.constantFrom(1, 0.84),
    }),
  ),
});

describe("the workings, worked again by mathjs from the expressions that are shown,", () => {
  it("agree with core for every face, in inch-pound and in SI", () => {
    fc.assert(
      fc.property(face, (one) => {
        expectAgreement(faceWorkings(one));
        expectAgreement(workingsInSi(faceWorkings(one)));
      }),
    );
  });

  it("agree with core for every duct, in inch-pound and in SI", () => {
    fc.assert(
      fc.property(duct, (one) => {
        expectAgreement(ductWorkings(one));
        expectAgreement(workingsInSi(ductWorkings(one)));
      }),
    );
  });

  it("agree where a published effective area takes the place of a factor", () => {
    const workings = faceWorkings({
      size: { shape: "rectangle", widthIn: 12, heightIn: 6 },
      freeAreaRatio: null,
      effectiveAreaFt2: 0.36,
      readings: { kind: "points", velocitiesFpm: [400] },
      designCfm: 150,
      budget: null,
    });
    expectAgreement(workings);
    expect(workings.map(({ symbol }) => symbol)).toEqual(["A", "F", "Af", "V", "Q", "P"]);
    expect(workings[4]?.result).toBeCloseTo(144, 12);
  });

  it("notice an expression that says something else than core", () => {
    const [area] = faceWorkings({
      size: { shape: "rectangle", widthIn: 12, heightIn: 6 },
      freeAreaRatio: 0.75,
      effectiveAreaFt2: null,
      readings: { kind: "points", velocitiesFpm: [400] },
      designCfm: null,
      budget: null,
    });
    if (area === undefined) throw new Error("no first step");
    expect(() => expectAgreement([{ ...area, expression: "2 * w * h" }])).toThrow();
    expect(() => evaluateWorkings([{ ...area, expression: "w + h" }], math)).toThrow(/dimension|Units do not match/);
    expect(() => evaluateWorkings([{ ...area, expression: "3" }], math)).toThrow("A = 3 should give ft2, but gives 3");
    expect(() => evaluateWorkings([{ ...area, unit: "%" }], math)).toThrow("should give a number without a unit");
  });
});

describe("the last airflow of the workings", () => {
  it("is the one that the plain formulas give", () => {
    const velocitiesFpm = [300, 450, 300, 450, 600, 450, 300, 450, 300];
    const square = { shape: "rectangle", widthIn: 18, heightIn: 18 } as const;
    const none = { designCfm: null, budget: null };
    const flowOf = (workings: Workings) => workings.find(({ symbol }) => symbol === "Q")?.result;
    expect(
      flowOf(
        faceWorkings({
          ...none,
          size: square,
          freeAreaRatio: 0.6,
          effectiveAreaFt2: null,
          readings: { kind: "points", velocitiesFpm },
        }),
      ),
    ).toBe(faceAirflow(averageVelocity(velocitiesFpm), rectangleArea(18, 18), 0.6));
    expect(flowOf(ductWorkings({ ...none, size: square, readings: { kind: "velocities", velocitiesFpm } }))).toBe(
      airflow(averageVelocity(velocitiesFpm), rectangleArea(18, 18)),
    );
    const pressuresInWg = [0.04, 0.09, -0.01];
    const workings = ductWorkings({
      size: square,
      readings: { kind: "pressures", pressuresInWg, densityLbFt3: 0.07, densityBasis: "stated", pitotFactor: 1 },
      designCfm: 2000,
      budget: null,
    });
    const flow = airflow(averageVelocityFromPressures(pressuresInWg, 0.07), 2.25);
    expect(flowOf(workings)).toBe(flow);
    expect(workings.at(-1)?.result).toBe(percentOfDesign(flow, 2000));
  });
});
