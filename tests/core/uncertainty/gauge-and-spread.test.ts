import { describe, expect, it } from "vitest";
import { coverageFactor } from "../../../src/core/index.js";
import { gaugeLimits } from "../../../src/core/uncertainty/gauge-limits.js";
import { sampleSpread } from "../../../src/core/uncertainty/sample-spread.js";
import { expectRefusal, NOT_NUMBERS } from "../numbers.js";

describe("the limits that a gauge leaves to an average of velocities", () => {
  // By hand: the wider of √(p ± e) summed over √p summed, e being the percent of the reading plus the fixed part.
  it.each([
    ["a fixed part alone", [0.04], 0, 0.005, 6.4586],
    ["a percent of the reading alone, halved by the root", [0.25], 2, 0, 1.00505],
    ["two points, of which the slower one doubts more", [0.01, 0.04], 0, 0.005, 14.0688],
    ["a point that reads below zero, which may truly be above", [-0.01, 0.04], 0, 0.005, 41.4214],
    ["both parts", [0.04], 5, 0.003, 6.4586],
    ["a fixed part larger than the pressure", [0.0025], 0, 0.005, 100],
    ["no doubt", [0.04, 0.09], 0, 0, 0],
  ])("%s", (_, pressures, percent, fixed, expected) => {
    expect(gaugeLimits(pressures, percent, fixed)).toBeCloseTo(expected, 3);
  });

  it("refuse pressures of which none is above 0, and doubts below 0", () => {
    expectRefusal(() => gaugeLimits([0, -0.01], 2, 0.005), "pressures", "above 0 at one point at least", 0);
    for (const wrong of [-0.1, ...NOT_NUMBERS]) {
      expectRefusal(() => gaugeLimits([0.04], wrong, 0), "ofReadingPercent", "0 or more", wrong);
      expectRefusal(() => gaugeLimits([0.04], 2, wrong), "fixedInWg", "0 or more", wrong);
    }
    expect(() => gaugeLimits([], 2, 0.005)).toThrow(/pressuresInWg/);
  });
});

describe("the spread of readings as a sample", () => {
  // By hand, from the squares of the differences over one reading less.
  it.each([
    [[90, 110], 14.1421],
    [[40, 800, 10, 750], 108.4166],
    [[400, 400, 400], 0],
    [[400], 0],
    [[-100, 100], 0],
    [[-90, -110], 14.1421],
  ])("of %j is %d %%", (velocities, expected) => {
    expect(sampleSpread(velocities)).toBeCloseTo(expected, 3);
  });
});

describe("the coverage factor of a count that arithmetic missed", () => {
  it("is that of the whole number", () => {
    for (const whole of [1, 2, 3, 7, 20]) expect(coverageFactor(whole + 1e-12)).toBe(coverageFactor(whole));
    for (const whole of [2, 3, 7, 20]) expect(coverageFactor(whole - 1e-12)).toBe(coverageFactor(whole));
    expect(coverageFactor(2.5)).toBeCloseTo((coverageFactor(2) + coverageFactor(3)) / 2, 12);
  });
});
