import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DuctSection, hydraulicDiameter, siteCheck } from "../../../src/core/index.js";

const duct: DuctSection = { shape: "round", diameterIn: 10 };

describe("a traverse plane", () => {
  it.each([
    [80, 20, "good"],
    [79.9, 20, "usable"],
    [80, 19.9, "usable"],
    [20, 5, "usable"],
    [19.9, 50, "too near"],
    [500, 4.9, "too near"],
    [0, 0, "too near"],
  ] as const)("of a 10 in duct, %f in behind and %f in before a disturbance, is %s", (before, after, verdict) => {
    expect(siteCheck(duct, before, after)).toEqual({
      fromUpstreamRatio: before / 10,
      toDownstreamRatio: after / 10,
      verdict,
    });
  });

  it("keeps its verdict in millimeters", () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 2000 }), (diameterMm) => {
        const section: DuctSection = { shape: "round", diameterIn: diameterMm / 25.4 };
        expect(siteCheck(section, (8 * diameterMm) / 25.4, (2 * diameterMm) / 25.4).verdict).toBe("good");
        expect(siteCheck(section, (2 * diameterMm) / 25.4, diameterMm / 2 / 25.4).verdict).toBe("usable");
      }),
    );
  });

  it("is not judged by a negative or missing distance, or without a size", () => {
    expect(() => siteCheck(duct, -1, 5)).toThrow("fromUpstreamIn must be 0 or more");
    expect(() => siteCheck(duct, 5, Number.NaN)).toThrow("toDownstreamIn must be 0 or more");
    expect(() => siteCheck({ shape: "round", diameterIn: 0 }, 5, 5)).toThrow("diameterIn must be above 0");
  });
});

describe("the hydraulic diameter", () => {
  it("of a square is its side, and of a rectangle lies between its sides", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 100, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (one, other) => {
          expect(hydraulicDiameter({ shape: "rectangular", widthIn: one, heightIn: one })).toBeCloseTo(one, 10);
          const diameterIn = hydraulicDiameter({ shape: "rectangular", widthIn: one, heightIn: other });
          expect(diameterIn).toBeGreaterThanOrEqual(Math.min(one, other) * (1 - 1e-12));
          expect(diameterIn).toBeLessThanOrEqual(Math.max(one, other) * (1 + 1e-12));
          expect(hydraulicDiameter({ shape: "rectangular", widthIn: other, heightIn: one })).toBeCloseTo(
            diameterIn,
            10,
          );
        },
      ),
    );
  });
});
