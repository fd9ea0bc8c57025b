import { describe, expect, it } from "vitest";
import {
  combineUncertainties,
  effectiveDegreesOfFreedom,
  standardFromLimits,
  uncertaintyBudget,
} from "../../../src/core/index.js";

const certain = Number.POSITIVE_INFINITY;

describe("EURACHEM/CITAC Guide, example A1 (a product and quotient, read with its components)", () => {
  const mass = { value: 100.28, standard: 0.05 };
  const purity = { value: 0.9999, standard: standardFromLimits(0.0001, "rectangular") };
  const volume = {
    value: 100,
    standard: combineUncertainties([
      standardFromLimits(0.1, "triangular"),
      0.02,
      standardFromLimits(0.084, "rectangular"),
    ]),
  };
  const concentration = (1000 * mass.value * purity.value) / volume.value;
  const part = (name: string, { value, standard }: typeof mass, exponent: number) => ({
    name,
    standardPercent: (100 * standard) / value,
    exponent,
    degreesOfFreedom: certain,
  });
  const budget = uncertaintyBudget([part("m", mass, 1), part("V", volume, -1), part("P", purity, 1)]);

  it("gives 1002.70 with a standard uncertainty of 0.8352", () => {
    expect(concentration).toBeCloseTo(1002.7, 2);
    expect((budget.standardPercent / 100) * concentration).toBeCloseTo(0.8352, 4);
  });

  it("gives the printed component of each input", () => {
    const [m, v, p] = budget.rows.map((row) => (row.contributionPercent / 100) * concentration);
    expect(m).toBeCloseTo(0.49995, 5);
    expect(v).toBeCloseTo(0.666525, 5);
    expect(p).toBeCloseTo(0.0578967, 7);
  });
});

describe("GUM, example H.1 (end gauge, read with its components)", () => {
  const length = 50_000_623;
  const expansion = standardFromLimits(1e-6, "rectangular");
  const difference = standardFromLimits(0.05, "rectangular");
  const contributions = [25, 5.8, 3.9, 6.7, length * 0.1 * expansion, length * 11.5e-6 * difference];

  it("gives the printed components of the two temperature terms", () => {
    expect(contributions[4]).toBeCloseTo(2.88679, 4);
    expect(contributions[5]).toBeCloseTo(16.599, 3);
  });

  it("combines to 32 nm", () => {
    expect(Math.round(combineUncertainties(contributions))).toBe(32);
  });

  it("has 16 effective degrees of freedom (printed value from memory, unverified)", () => {
    const freedom = [18, 24, 5, 8, 50, 2];
    const parts = contributions.map((standard, i) => ({ standard, degreesOfFreedom: freedom[i] ?? certain }));
    expect(Math.floor(effectiveDegreesOfFreedom(parts))).toBe(16);
  });
});

describe("limits with a U-shaped distribution", () => {
  it("give the half-width over the root of two (GUM example H.1, a cyclic 0.5 °C)", () => {
    expect(standardFromLimits(0.5, "u-shaped")).toBeCloseTo(0.35355, 5);
  });
});
