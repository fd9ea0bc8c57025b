import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DuctSection, flatOvalPoints, flowAngle, hydraulicDiameter, siteCheck } from "../../../src/core/index.js";

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
    expect(siteCheck(duct, before, after)).toMatchObject({
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

describe("the angle of the flow", () => {
  it("is the average of the rotations without their signs, and may be 20 degrees (Method 1, 11.4.2)", () => {
    expect(flowAngle([10, -20, 0, 6]).averageDegrees).toBe(9);
    expect(flowAngle([20, -20]).isSuitable).toBe(true);
    expect(flowAngle([20, -20.1]).words).toMatch(/^swirling: average angle 20\.1°/);
    expect(() => flowAngle([91])).toThrow("angles must be from -90 to 90");
    expect(() => flowAngle([])).toThrow("angles must be at least one value");
  });
});

describe("the points of a flat oval duct", () => {
  it("are those of a circle's strips where the axes are equal, and of a rectangle's cells where it is long", () => {
    // Half the area of a circle's left half: the chord at 0.4040 radii from the center (tables of circular segments).
    const [first] = flatOvalPoints(10, 10, 2, 1, 0, 0);
    expect(first?.holeIn).toBeCloseTo(5 * (1 - 0.4039728), 5);
    expect(first?.depthsIn).toEqual([expect.closeTo(5 * Math.sqrt(1 - 0.4039728 ** 2), 4)]);
    // A line more to the right for each strip of the straight part: 1000 · 10 less 100 − 25π, over 10, over 50 strips.
    const long = flatOvalPoints(1000, 10, 50, 2, 1, 0);
    const strip = (10_000 - (100 - 25 * Math.PI)) / 10 / 50;
    expect((long[25]?.holeIn ?? 0) - (long[24]?.holeIn ?? 0)).toBeCloseTo(strip, 9);
    expect(long[25]?.depthsIn).toEqual([3.5, 8.5]);
  });

  it("lie mirrored, within the duct, and give the mean of a linear profile", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 40, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (minorIn, longer, lines) => {
          const majorIn = minorIn * longer;
          const places = flatOvalPoints(majorIn, minorIn, lines, 3, 0, 0);
          const mean = places.reduce((sum, { holeIn }) => sum + holeIn / lines, 0);
          expect(mean).toBeCloseTo(majorIn / 2, 6);
          for (const { holeIn } of places) expect(holeIn > 0 && holeIn < majorIn).toBe(true);
        },
      ),
    );
    expect(() => flatOvalPoints(10, 12, 4, 3, 0, 0)).toThrow("majorIn");
    expect(() => flatOvalPoints(24, 12, 0, 3, 0, 0)).toThrow("lines");
    expect(() => flatOvalPoints(24, 12, 4, 201, 0, 0)).toThrow("pointsPerSide");
  });
});
