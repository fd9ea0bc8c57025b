import { describe, expect, it } from "vitest";
import { COVERAGE_FACTORS } from "../../../shared/tables/coverage-factors.js";
import { coverageFactor } from "../../../src/core/index.js";

/** Share of Student's distribution within ±t, by Simpson's rule after x = √ν · tan θ, which leaves cos^(ν−1) θ. */
function coverage(t: number, degreesOfFreedom: number): number {
  const integral = (to: number) => {
    const steps = 4000;
    const height = (theta: number) => Math.cos(theta) ** (degreesOfFreedom - 1);
    let sum = height(0) + height(to);
    for (let i = 1; i < steps; i += 1) sum += (i % 2 === 1 ? 4 : 2) * height((i * to) / steps);
    return (sum * to) / steps / 3;
  };
  return integral(Math.atan(t / Math.sqrt(degreesOfFreedom))) / integral(Math.PI / 2);
}

describe("the coverage factor", () => {
  it.each(COVERAGE_FACTORS.filter(([degrees]) => degrees < 1000))(
    "for %i degrees of freedom, %f, holds 95.45 % of Student's distribution to its last printed digit",
    (degreesOfFreedom, factor) => {
      expect(coverage(factor - 0.005, degreesOfFreedom)).toBeLessThan(0.9545);
      expect(coverage(factor + 0.005, degreesOfFreedom)).toBeGreaterThan(0.954499);
    },
  );

  it("lies between two whole numbers where it falls steeply, and there covers no less than it says", () => {
    expect(coverageFactor(2.5)).toBeCloseTo((4.53 + 3.31) / 2, 9);
    expect(coverageFactor(3)).toBe(3.31);
    expect(coverageFactor(20.9)).toBe(2.13);
    for (const degreesOfFreedom of [1.5, 2.5, 3.5, 4.4, 7.5, 12.5]) {
      expect(coverage(coverageFactor(degreesOfFreedom), degreesOfFreedom)).toBeGreaterThan(0.954);
    }
  });

  it("covers no less between two rows of its table", () => {
    for (const degreesOfFreedom of [24, 29, 39, 99]) {
      expect(coverage(coverageFactor(degreesOfFreedom), degreesOfFreedom)).toBeGreaterThan(0.9545);
    }
  });

  it("is 2 for limits taken as certain", () => {
    expect(coverageFactor(1e6)).toBe(2);
    expect(coverageFactor(Number.POSITIVE_INFINITY)).toBe(2);
  });

  it("is refused below one degree: a single sweep says nothing about repeating", () => {
    expect(() => coverageFactor(0)).toThrow("degreesOfFreedom must be 1 or more, but is 0");
    expect(() => coverageFactor(Number.NaN)).toThrow("degreesOfFreedom");
  });
});
