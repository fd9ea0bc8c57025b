import { describe, expect, it } from "vitest";
import {
  airflowBudget,
  type DuctMeasurement,
  ductWorkings,
  type FaceMeasurement,
  faceWorkings,
  stepNumbers,
  workingsInSi,
} from "../../../src/core/index.js";

const face: FaceMeasurement = {
  size: { shape: "rectangle", widthIn: 12, heightIn: 6 },
  freeAreaRatio: null,
  effectiveAreaFt2: null,
  readings: { kind: "points", velocitiesFpm: [380, 420] },
  designCfm: 160,
  budget: airflowBudget({
    instrumentPercent: 8,
    factorPercent: "assumed",
    areaPercent: 2,
    repeatPercent: "assumed",
    repeatDegreesOfFreedom: Number.POSITIVE_INFINITY,
    points: null,
    pitot: null,
  }),
};
const duct: DuctMeasurement = {
  size: { shape: "round", diameterIn: 12 },
  readings: {
    kind: "pressures",
    pressuresInWg: [0.04, -0.01],
    densityLbFt3: 0.075,
    densityBasis: "assumed",
    pitotFactor: 1,
  },
  designCfm: null,
  budget: null,
};

describe("the workings of a face", () => {
  it("go from the size to the airflow, its percent of design and its ±", () => {
    expect(faceWorkings(face).map(({ symbol, expression }) => `${symbol} = ${expression}`)).toEqual([
      "A = w * h",
      "Af = A * F",
      "V = mean(v)",
      "Q = V * Af",
      "P = 100 * Q / Qd",
      "U = k * sqrt(uFactor^2 + uInstrument^2 + uArea^2 + uRepeat^2)",
      "Uq = abs(Q) * U / 100",
    ]);
  });

  it("say what was assumed, and nothing where all was known", () => {
    const assumed = faceWorkings(face).flatMap((step) =>
      step.assumed === null ? [] : [`${step.symbol}: ${step.assumed}`],
    );
    expect(assumed).toHaveLength(2);
    expect(assumed[0]).toMatch(/^Af: Factor 0\.75, because none is published/);
    expect(assumed[1]).toBe("U: Default for factor, repeat");
    const known = faceWorkings({ ...face, freeAreaRatio: 0.7, budget: null });
    expect(known.map((step) => step.assumed)).toEqual([null, null, null, null, null]);
  });

  it("leave out the design and the ± where they are not given", () => {
    const workings = faceWorkings({ ...face, designCfm: null, budget: null });
    expect(workings.at(-1)).toMatchObject({ symbol: "Q", unit: "cfm", result: 150 });
  });

  it("name the sweeps and their times where sweeps were timed", () => {
    const readings = { kind: "sweeps", velocitiesFpm: [400, 460], timesSeconds: [20, 40] } as const;
    const velocity = faceWorkings({ ...face, readings })[2];
    expect(velocity).toMatchObject({ title: "Average velocity of the sweeps", result: 440 });
    expect(velocity && stepNumbers(velocity)).toBe("v = [400; 460] fpm, t = [20; 40] s");
  });

  it("refuse an effective area and a factor at once, as core does", () => {
    expect(() => faceWorkings({ ...face, freeAreaRatio: 0.7, effectiveAreaFt2: 0.36 })).toThrow("freeAreaRatio");
    expect(() => faceWorkings({ ...face, designCfm: 0 })).toThrow("designFlow must be above 0");
  });

  it("keep the sign of an airflow that runs backwards and give its ± without sign", () => {
    const workings = faceWorkings({ ...face, readings: { kind: "points", velocitiesFpm: [-100] } });
    expect(workings.find(({ symbol }) => symbol === "Q")?.result).toBe(-37.5);
    expect(workings.at(-1)?.result).toBeGreaterThan(0);
  });
});

describe("every step of every kind", () => {
  const sweeps = { kind: "sweeps", velocitiesFpm: [400], timesSeconds: [20] } as const;
  const velocities = { kind: "velocities", velocitiesFpm: [400] } as const;
  const all = [
    faceWorkings(face),
    faceWorkings({ ...face, effectiveAreaFt2: 0.36, readings: sweeps }),
    faceWorkings({ ...face, freeAreaRatio: 0.7 }),
    ductWorkings(duct),
    ductWorkings({ ...duct, size: { shape: "flat oval", majorIn: 24, minorIn: 12 }, readings: velocities }),
  ];

  it("has a title, a source, and a name for each number", () => {
    for (const step of all.flat()) {
      expect(step.title.length, step.expression).toBeGreaterThan(3);
      expect(step.source.length, step.expression).toBeGreaterThan(10);
      for (const { name } of step.inputs) expect(name.length, step.expression).toBeGreaterThan(3);
    }
  });

  it("takes over what earlier steps found, number and unit", () => {
    for (const workings of all) {
      const found = new Map<string, string>();
      for (const { symbol, inputs, result, unit } of workings) {
        for (const input of inputs) {
          expect(`${input.value} ${input.unit}`).toBe(found.get(input.symbol) ?? `${input.value} ${input.unit}`);
        }
        found.set(symbol, `${result} ${unit}`);
      }
    }
  });

  it("assumes nothing about a ± whose parts are all stated", () => {
    const budget = airflowBudget({
      instrumentPercent: 3,
      factorPercent: 5,
      areaPercent: 1,
      repeatPercent: 2,
      repeatDegreesOfFreedom: 9,
      points: null,
      pitot: null,
    });
    expect(faceWorkings({ ...face, budget }).find(({ symbol }) => symbol === "U")?.assumed).toBeNull();
  });
});

describe("the workings of a duct", () => {
  it("say that the density was assumed and which pressures counted as 0", () => {
    const velocity = ductWorkings(duct)[1];
    expect(velocity?.assumed).toBe(
      "Density of standard air, because none is stated; 1 negative of 2 pressures counted as 0 (common practice)",
    );
    expect(velocity && stepNumbers(velocity)).toBe("p = [0.04; 0] inWG, rho = 0.075 lb/ft3");
  });

  it("assume nothing where the density is stated and no pressure is negative", () => {
    const readings = {
      kind: "pressures",
      pressuresInWg: [0, 0.04],
      densityLbFt3: 0.07,
      densityBasis: "stated",
      pitotFactor: 1,
    } as const;
    expect(ductWorkings({ ...duct, readings })[1]?.assumed).toBeNull();
  });

  it("take the whole inside area", () => {
    const readings = { kind: "velocities", velocitiesFpm: [400] } as const;
    expect(ductWorkings({ ...duct, readings }).map((step) => step.symbol)).toEqual(["A", "V", "Q"]);
    const oval = ductWorkings({ ...duct, size: { shape: "flat oval", majorIn: 24, minorIn: 12 }, readings });
    expect(oval[0]?.result).toBeCloseTo(257.1 / 144, 4);
  });
});

describe("the same workings in SI", () => {
  it("convert every number that has a unit and leave the formulas alone", () => {
    const workings = faceWorkings(face);
    const si = workingsInSi(workings);
    expect(si.map(({ expression }) => expression)).toEqual(workings.map(({ expression }) => expression));
    expect(si.map(({ unit }) => unit)).toEqual(["m2", "m2", "m/s", "L/s", "%", "%", "L/s"]);
    expect(si[0] && stepNumbers(si[0])).toBe("w = 304.8 mm, h = 152.4 mm");
    expect(si[3]?.result).toBeCloseTo(150 * 0.4719474432, 12);
    expect(si[4]?.result).toBe(workings[4]?.result);
  });

  it("convert pressures and density", () => {
    const velocity = workingsInSi(ductWorkings(duct))[1];
    expect(velocity?.inputs.map(({ unit }) => unit)).toEqual(["Pa", "kg/m3"]);
    expect(velocity?.inputs[1]?.value).toBeCloseTo(1.20138, 5);
  });
});

describe("the numbers beside a formula", () => {
  const step = faceWorkings({
    ...face,
    readings: { kind: "points", velocitiesFpm: Array.from({ length: 25 }, (_, index) => 300 + index / 3) },
  })[2];

  it("show six digits and cut a long list off with its count", () => {
    expect(step && stepNumbers(step)).toBe(
      "v = [300; 300.333; 300.667; 301; 301.333; 301.667; 302; 302.333; 302.667; 303; 303.333; 303.667; … 25 in all] fpm",
    );
  });

  it("show twelve readings whole", () => {
    const velocitiesFpm = Array.from({ length: 12 }, () => 400);
    const velocity = faceWorkings({ ...face, readings: { kind: "points", velocitiesFpm } })[2];
    expect(velocity && stepNumbers(velocity)).toBe(`v = [${velocitiesFpm.join("; ")}] fpm`);
  });

  it("show a ratio without a unit and a percentage with its sign", () => {
    const texts = faceWorkings(face).map(stepNumbers);
    expect(texts[1]).toBe("A = 0.5 ft2, F = 0.75");
    expect(texts[6]).toMatch(/^Q = 150 cfm, U = [\d.]+ %$/);
  });
});
