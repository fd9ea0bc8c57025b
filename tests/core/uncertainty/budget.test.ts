import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type AirflowDoubt,
  airflowBudget,
  airflowUncertainty,
  instrumentLimits,
  uncertaintyBudget,
} from "../../../src/core/index.js";

const certain = Number.POSITIVE_INFINITY;
const part = (name: string, standardPercent: number, exponent = 1, degreesOfFreedom = certain) => ({
  name,
  standardPercent,
  exponent,
  degreesOfFreedom,
});
const nothingKnown: AirflowDoubt = {
  instrumentPercent: "assumed",
  factorPercent: "assumed",
  areaPercent: "assumed",
  repeatPercent: "assumed",
  repeatDegreesOfFreedom: certain,
  points: null,
  pitot: null,
};

describe("the budget of a product", () => {
  it("of a 2 % area, a 10 % factor and a 6 % velocity is ±23.7 %, ±35.5 cfm of 150 (derived by hand)", () => {
    const budget = uncertaintyBudget([part("Area", 2), part("Factor", 10), part("Velocity", 6)]);
    expect(budget.standardPercent).toBeCloseTo(Math.sqrt(140), 10);
    expect(budget.expandedPercent).toBeCloseTo(23.7, 1);
    expect((budget.expandedPercent / 100) * 150).toBeCloseTo(35.5, 1);
    expect(budget.rows.map((row) => row.sharePercent.toFixed(1))).toEqual(["2.9", "71.4", "25.7"]);
  });

  it("with a well-known effective area, 5 %, 3 % and 1 %, is ±11.8 % (derived by hand)", () => {
    const budget = uncertaintyBudget([part("Area", 1), part("Factor", 5), part("Velocity", 3)]);
    expect(budget.standardPercent).toBeCloseTo(5.92, 2);
    expect(budget.expandedPercent).toBeCloseTo(11.8, 1);
  });

  it("halves what stands under a root and doubles what is squared", () => {
    const [pressure, diameter, density] = uncertaintyBudget([
      part("VP", 4, 0.5),
      part("D", 1, 2),
      part("ρ", 2, -0.5),
    ]).rows;
    expect(pressure?.contributionPercent).toBe(2);
    expect(diameter?.contributionPercent).toBe(2);
    expect(density?.contributionPercent).toBe(1);
  });

  it("has shares that add up to 100 %, whatever the parts", () => {
    const parts = fc.array(fc.double({ min: 0.001, max: 100, noNaN: true }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(parts, (percents) => {
        const { rows } = uncertaintyBudget(percents.map((percent, i) => part(`Part ${i}`, percent)));
        expect(rows.reduce((sum, row) => sum + row.sharePercent, 0)).toBeCloseTo(100, 9);
      }),
    );
  });

  it("widens its ± where the part that rules it was repeated only a few times", () => {
    const often = uncertaintyBudget([part("Area", 1), part("Repeat", 5, 1, 30)]);
    const seldom = uncertaintyBudget([part("Area", 1), part("Repeat", 5, 1, 2)]);
    expect(often.coverageFactor).toBeCloseTo(2.086, 2);
    // √((2 · 1)² + (4.53 · 5)²) = 22.74 of 5.099, by hand
    expect(seldom.expandedPercent).toBeCloseTo(22.74, 2);
    expect(seldom.coverageFactor).toBeCloseTo(22.738 / 5.099, 3);
  });

  it("keeps k near 2 where a part repeated three times hardly counts", () => {
    expect(uncertaintyBudget([part("Factor", 10), part("Repeat", 2, 1, 2)]).coverageFactor).toBeLessThan(2.2);
  });

  it("without any doubt is 0 with shares of 0, not a division by 0", () => {
    const budget = uncertaintyBudget([part("Area", 0)]);
    expect(budget.expandedPercent).toBe(0);
    expect(budget.rows[0]?.sharePercent).toBe(0);
  });

  it("refuses no parts, a part without name, a negative part and a power that is no number", () => {
    expect(() => uncertaintyBudget([])).toThrow("parts must be at least one value");
    expect(() => uncertaintyBudget([part("", 1)])).toThrow("name must be the name of the part");
    expect(() => uncertaintyBudget([part("Area", -1)])).toThrow("standardPercent must be 0 or more");
    expect(() => uncertaintyBudget([part("Area", 1, Number.NaN)])).toThrow("exponent must be a finite number");
  });
});

describe("the default budget", () => {
  it("of a face with an unknown factor lands where field practice puts it: a reading 10 to 15 % off, ± over 20 %", () => {
    // IMO MSC/Circ. 729: allow for deviations of at least 20 % with anemometers, even by competent people
    const budget = airflowBudget(nothingKnown);
    expect(budget.standardPercent).toBeGreaterThan(10);
    expect(budget.standardPercent).toBeLessThan(15);
    expect(budget.expandedPercent).toBeGreaterThan(20);
  });

  it("says that the assumed factor dominates", () => {
    expect(airflowBudget(nothingKnown).summary).toBe(
      "± 27.8 % (95 %): most of the doubt comes from the assumed factor",
    );
  });

  it("names everything that was assumed", () => {
    expect(airflowBudget(nothingKnown).assumed).toEqual(["Factor", "Instrument", "Area", "Repeat"]);
    expect(airflowBudget({ ...nothingKnown, factorPercent: 10, areaPercent: 1 }).assumed).toEqual([
      "Instrument",
      "Repeat",
    ]);
    const stated = { instrumentPercent: 3, repeatPercent: 2, repeatDegreesOfFreedom: 4, points: null, pitot: null };
    expect(airflowBudget({ ...nothingKnown, ...stated }).assumed).toEqual(["Factor", "Area"]);
  });

  it("of a duct without a factor has no factor row and is ruled by the instrument", () => {
    const budget = airflowBudget({ ...nothingKnown, factorPercent: "none" });
    expect(budget.rows.map((row) => row.name)).toEqual(["Instrument", "Area", "Repeat"]);
    expect(budget.summary).toContain("most of the doubt comes from the assumed instrument");
  });
});

describe("a stated budget", () => {
  it("of a low velocity is ruled by the fixed part of the data sheet", () => {
    const instrumentPercent = (100 * instrumentLimits(100, 3, 20)) / 100;
    const budget = airflowBudget({ ...nothingKnown, instrumentPercent, factorPercent: 10 });
    expect(budget.rows.find((row) => row.name === "Instrument")?.contributionPercent).toBeCloseTo(13.3, 1);
    expect(budget.summary).toContain("most of the doubt comes from the instrument");
  });

  it("whose parts weigh alike says which is the largest, not that it dominates", () => {
    const budget = airflowBudget({ ...nothingKnown, instrumentPercent: 10, factorPercent: 10, areaPercent: 10 });
    expect(budget.summary).toMatch(/the largest part of the doubt comes from the \w+$/);
  });

  it("without doubt says so", () => {
    const budget = airflowBudget({
      instrumentPercent: 0,
      factorPercent: "none",
      areaPercent: 0,
      repeatPercent: 0,
      repeatDegreesOfFreedom: certain,
      points: null,
      pitot: null,
    });
    expect(budget.summary).toContain("no part was given any doubt");
  });

  it("refuses a negative part under its own name", () => {
    expect(() => airflowBudget({ ...nothingKnown, factorPercent: -1 })).toThrow("factorPercent must be 0 or more");
    expect(() => airflowBudget({ ...nothingKnown, instrumentPercent: -1 })).toThrow("instrumentPercent must be 0");
    expect(() => airflowBudget({ ...nothingKnown, areaPercent: -1 })).toThrow("areaPercent must be 0 or more");
    expect(() => airflowBudget({ ...nothingKnown, repeatPercent: -1 })).toThrow("repeatPercent must be 0 or more");
    expect(() =>
      airflowBudget({ ...nothingKnown, repeatPercent: 2, repeatDegreesOfFreedom: 0, points: null, pitot: null }),
    ).toThrow("degreesOfFreedom must be 1 or more");
  });
});

describe("the points of an opening", () => {
  const grille = { ...nothingKnown, factorPercent: 5 };

  it("widen the ± the more they differ and the fewer they are", () => {
    const of = (pointCount: number, spreadPercent: number) =>
      airflowBudget({ ...grille, points: { pointCount, spreadPercent } }).expandedPercent;
    const even = of(4, 0);
    expect(even).toBeCloseTo(airflowBudget(grille).expandedPercent, 10);
    expect(of(4, 40)).toBeGreaterThan(of(16, 40));
    expect(of(16, 40)).toBeGreaterThan(even);
  });

  it("that are only one say so, and are assumed to be 22 % off", () => {
    const budget = airflowBudget({ ...grille, points: { pointCount: 1, spreadPercent: 0 } });
    expect(budget.assumed).toContain("One point");
    expect(budget.summary).toMatch(/most of the doubt comes from reading at one point only$/);
  });

  it("are refused where their number or spread cannot be", () => {
    const with_ = (points: AirflowDoubt["points"]) => () => airflowBudget({ ...grille, points });
    expect(with_({ pointCount: 0, spreadPercent: 5 })).toThrow("points must be 1 or more");
    expect(with_({ pointCount: 2.5, spreadPercent: 5 })).toThrow("points must be 1 or more");
    expect(with_({ pointCount: 3, spreadPercent: -5 })).toThrow("spreadPercent must be 0 or more");
  });
});

describe("a velocity from pressures", () => {
  it("has a density that counts half and a tube that counts whole, in rows of their own", () => {
    const pitot = { densityPercent: 6, coefficientPercent: 3 };
    const { rows } = airflowBudget({ ...nothingKnown, factorPercent: "none", pitot });
    const of = (name: string) => rows.find((row) => row.name === name)?.contributionPercent;
    expect(of("Density")).toBeCloseTo(3 / Math.sqrt(3), 10);
    expect(of("Pitot tube")).toBeCloseTo(3 / Math.sqrt(3), 10);
  });

  it("is refused beyond numbers instead of showing an infinite ±", () => {
    expect(() => airflowBudget({ ...nothingKnown, instrumentPercent: 1.7e308, factorPercent: 1.7e308 })).toThrow(
      "small enough to calculate with",
    );
  });
});

describe("the ± of an airflow", () => {
  it("grows with the airflow and is the same for air that runs backwards", () => {
    const one = airflowUncertainty(150, nothingKnown);
    expect(airflowUncertainty(300, nothingKnown)).toBeCloseTo(2 * one, 10);
    expect(airflowUncertainty(-150, nothingKnown)).toBe(one);
    expect(airflowUncertainty(0, nothingKnown)).toBe(0);
  });

  it("refuses an airflow that is no number", () => {
    expect(() => airflowUncertainty(Number.NaN, nothingKnown)).toThrow("airflowCfm must be a finite number");
  });
});
