import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type DuctSection,
  equalAreaGrid,
  fieldLayout,
  largestEqualAreaGrid,
  method1Layout,
  minimumWallDistance,
  type TraverseRule,
} from "../../../src/core/index.js";

const round = (diameterIn: number): DuctSection => ({ shape: "round", diameterIn });
const rectangular = (widthIn: number, heightIn: number): DuctSection => ({ shape: "rectangular", widthIn, heightIn });
const side = fc.double({ min: 4, max: 100, noNaN: true });
const longestCell = (widthIn: number, heightIn: number, columns: number, rows: number) =>
  Math.max((widthIn * rows) / (heightIn * columns), (heightIn * columns) / (widthIn * rows));

describe("the grid of equal cells", () => {
  it("holds the points asked for in near-square cells whose centers are close enough", () => {
    fc.assert(
      fc.property(
        side,
        side,
        fc.integer({ min: 1, max: 100 }),
        fc.constantFrom(6, 12),
        (widthIn, heightIn, fewest, spacing) => {
          fc.pre(Math.max(widthIn / heightIn, heightIn / widthIn) < 10);
          const { columns, rows } = equalAreaGrid(widthIn, heightIn, fewest, spacing);
          expect(columns * rows).toBeGreaterThanOrEqual(fewest);
          expect(widthIn / columns).toBeLessThanOrEqual(spacing * (1 + 1e-8));
          expect(heightIn / rows).toBeLessThanOrEqual(spacing * (1 + 1e-8));
          expect(longestCell(widthIn, heightIn, columns, rows)).toBeLessThanOrEqual(1.5 * (1 + 1e-8));
        },
      ),
    );
  });

  it("has no smaller one that would do, found by trying all", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 60 }),
        fc.integer({ min: 4, max: 60 }),
        fc.integer({ min: 1, max: 40 }),
        (widthIn, heightIn, fewest) => {
          const { columns, rows } = equalAreaGrid(widthIn, heightIn, fewest, 7);
          for (let c = 1; c <= columns * rows; c += 1) {
            for (let r = 1; c * r < columns * rows; r += 1) {
              const wouldDo =
                c * r >= fewest && widthIn / c <= 7 && heightIn / r <= 7 && longestCell(widthIn, heightIn, c, r) <= 1.5;
              expect(wouldDo, `${c} by ${r}`).toBe(false);
            }
          }
        },
      ),
      { numRuns: 50 },
    );
  });

  it("is the same in millimeters, where 24 in become 609.6 mm", () => {
    const inches = (mm: number) => mm / 25.4;
    expect(equalAreaGrid(inches(609.6), inches(304.8), 1, inches(152.4))).toEqual({ columns: 4, rows: 2 });
    expect(equalAreaGrid(inches(600), inches(450), 1, inches(150))).toEqual({ columns: 4, rows: 3 });
  });

  it("may leave the spacing free", () => {
    expect(equalAreaGrid(36, 27, 12, Number.POSITIVE_INFINITY)).toEqual({ columns: 4, rows: 3 });
    expect(equalAreaGrid(27, 36, 12, Number.POSITIVE_INFINITY)).toEqual({ columns: 3, rows: 4 });
    expect(equalAreaGrid(20, 20, 1, Number.POSITIVE_INFINITY)).toEqual({ columns: 1, rows: 1 });
  });

  it("takes the squarest cells among equals: 4 by 3 rather than 3 by 4 where the width is a little larger", () => {
    expect(equalAreaGrid(33, 30, 12, Number.POSITIVE_INFINITY)).toEqual({ columns: 4, rows: 3 });
    expect(equalAreaGrid(30, 33, 12, Number.POSITIVE_INFINITY)).toEqual({ columns: 3, rows: 4 });
    expect(largestEqualAreaGrid(33, 30, 12)).toEqual({ columns: 4, rows: 3 });
    expect(largestEqualAreaGrid(30, 33, 12)).toEqual({ columns: 3, rows: 4 });
  });

  it("has up to 200 rows and no more", () => {
    expect(equalAreaGrid(10, 200, 1, 1)).toEqual({ columns: 10, rows: 200 });
    expect(() => equalAreaGrid(10, 201, 1, 1)).toThrow("spacingIn must be wide enough for at most 200 by 200");
  });

  it("is refused without a size, a number or a spacing, and where it would not end", () => {
    expect(() => equalAreaGrid(0, 10, 4, 6)).toThrow("widthIn must be above 0");
    expect(() => equalAreaGrid(10, -1, 4, 6)).toThrow("heightIn must be above 0");
    expect(() => equalAreaGrid(10, 10, 0, 6)).toThrow("fewestPoints must be a whole number of 1 or more");
    expect(() => equalAreaGrid(10, 10, 2.5, 6)).toThrow("fewestPoints must be a whole number");
    expect(() => equalAreaGrid(10, 10, 4, 0)).toThrow("spacingIn must be above 0");
    expect(() => equalAreaGrid(10, 10, 4, Number.NaN)).toThrow("spacingIn must be above 0");
    expect(() => equalAreaGrid(1000, 1000, 4, 1)).toThrow("spacingIn must be wide enough for at most 200 by 200");
    expect(() => equalAreaGrid(1e300, 1e-300, 4, 6)).toThrow("spacingIn must be wide enough");
  });
});

describe("the largest grid of equal cells", () => {
  it("stays at or below its number of points, in near-square cells, and none larger would fit", () => {
    fc.assert(
      fc.property(side, side, (widthIn, heightIn) => {
        const { columns, rows } = largestEqualAreaGrid(widthIn, heightIn, 64);
        expect(columns * rows).toBeLessThanOrEqual(64);
        expect(longestCell(widthIn, heightIn, columns, rows)).toBeLessThanOrEqual(1.5 * (1 + 1e-8));
        for (let c = 1; c <= 64; c += 1) {
          for (let r = Math.floor((columns * rows) / c) + 1; c * r <= 64; r += 1) {
            expect(longestCell(widthIn, heightIn, c, r), `${c} by ${r}`).toBeGreaterThan(1.5 * (1 - 1e-8));
          }
        }
      }),
    );
  });

  it("takes the squarest cells among equals", () => {
    expect(largestEqualAreaGrid(40, 40, 64)).toEqual({ columns: 8, rows: 8 });
    expect(largestEqualAreaGrid(80, 20, 64)).toEqual({ columns: 16, rows: 4 });
    expect(largestEqualAreaGrid(20, 80, 64)).toEqual({ columns: 4, rows: 16 });
  });

  it("is refused where the duct is too flat, and without a size or a number", () => {
    expect(() => largestEqualAreaGrid(100, 1, 64)).toThrow("mostPoints must be enough for near-square cells");
    expect(() => largestEqualAreaGrid(0, 1, 64)).toThrow("widthIn must be above 0");
    expect(() => largestEqualAreaGrid(1, 0, 64)).toThrow("heightIn must be above 0");
    expect(() => largestEqualAreaGrid(1, 1, 0)).toThrow("mostPoints must be a whole number of 1 or more");
  });
});

describe("the least number of points of the stack methods", () => {
  it("changes above 24 in and below 12 in, and names the method", () => {
    expect(method1Layout(round(24.01))).toMatchObject({ lines: 2, pointsPerLine: 6 });
    expect(method1Layout(round(24))).toMatchObject({ lines: 2, pointsPerLine: 4 });
    expect(method1Layout(round(12)).source).toContain("Method 1, §11.2.1.1");
    expect(method1Layout(round(11.99)).source).toContain("Method 1A");
    expect(method1Layout(rectangular(24, 24))).toMatchObject({ lines: 3, pointsPerLine: 3 });
  });

  it("gives four points to the longer side of a large rectangular duct", () => {
    expect(method1Layout(rectangular(40, 30))).toMatchObject({ lines: 3, pointsPerLine: 4 });
    expect(method1Layout(rectangular(30, 40))).toMatchObject({ lines: 4, pointsPerLine: 3 });
    expect(method1Layout(rectangular(30, 30))).toMatchObject({ lines: 3, pointsPerLine: 4 });
  });

  it("is not known below 4 in", () => {
    expect(method1Layout(round(4))).toMatchObject({ lines: 2, pointsPerLine: 4 });
    expect(() => method1Layout(round(3.9))).toThrow(
      "diameterIn must be 4 in (102 mm) or more for Method 1A, but is 3.9",
    );
    expect(() => method1Layout(rectangular(30, 2))).toThrow("widthIn must be wide enough for a hydraulic diameter");
    expect(() => method1Layout(round(0))).toThrow("diameterIn must be above 0");
  });
});

describe("a limit that is met exactly", () => {
  it("is met in millimeters as well", () => {
    const mm = (inches: number) => Number((inches * 25.4).toFixed(1)) / 25.4;
    expect(method1Layout(round(mm(24)))).toMatchObject({ pointsPerLine: 4 });
    expect(minimumWallDistance(round(mm(24)))).toBe(0.5);
    expect(method1Layout(round(mm(12))).source).toContain("Method 1,");
    expect(fieldLayout(round(mm(10)), "equal area")).toMatchObject({ pointsPerLine: 6 });
    expect(fieldLayout(rectangular(mm(36), mm(30)), "log-Tchebycheff")).toMatchObject({ lines: 6, pointsPerLine: 6 });
  });
});

describe("the number of points usual in air balancing", () => {
  it("is three diameters of 6 or 8 points by the log rules in a round duct", () => {
    for (const rule of ["log-linear", "log-Tchebycheff"] as const) {
      expect(fieldLayout(round(10), rule)).toMatchObject({ lines: 3, pointsPerLine: 6 });
      expect(fieldLayout(round(10.1), rule)).toMatchObject({ lines: 3, pointsPerLine: 8 });
    }
  });

  it("is 16 to 64 cells by equal area, centers 6 in apart or less until there are 64", () => {
    fc.assert(
      fc.property(side, side, (widthIn, heightIn) => {
        fc.pre(Math.max(widthIn, heightIn) > 4.001);
        const { lines, pointsPerLine } = fieldLayout(rectangular(widthIn, heightIn), "equal area");
        expect(lines * pointsPerLine).toBeGreaterThanOrEqual(16);
        expect(lines * pointsPerLine).toBeLessThanOrEqual(64);
        const isClose = Math.max(widthIn / pointsPerLine, heightIn / lines) <= 6 * (1 + 1e-8);
        if (isClose) return;
        const close = equalAreaGrid(widthIn, heightIn, 16, 6);
        expect(close.columns * close.rows).toBeGreaterThan(64);
      }),
    );
  });

  it("crosses the width: a duct on its side swaps lines and points", () => {
    for (const rule of ["equal area", "log-Tchebycheff"] as const) {
      const lying = fieldLayout(rectangular(40, 24), rule);
      expect(fieldLayout(rectangular(24, 40), rule)).toMatchObject({
        lines: lying.pointsPerLine,
        pointsPerLine: lying.lines,
      });
    }
  });

  it("covers ducts of any size", () => {
    expect(fieldLayout(rectangular(240, 240), "equal area")).toMatchObject({ lines: 8, pointsPerLine: 8 });
    expect(fieldLayout(rectangular(48, 48), "equal area")).toMatchObject({ lines: 8, pointsPerLine: 8 });
    expect(fieldLayout(rectangular(4.1, 4), "equal area")).toMatchObject({ lines: 4, pointsPerLine: 4 });
  });

  it("says where it comes from", () => {
    expect(fieldLayout(round(12), "equal area").source).toContain("training document");
    expect(fieldLayout(round(12), "log-linear").source).toBe("Common practice, no source");
    expect(fieldLayout(rectangular(12, 12), "equal area").source).toBe("Common practice, no source");
  });

  it("is refused where a rule does not fit the shape, the duct is too flat, or has no size", () => {
    expect(() => fieldLayout(rectangular(20, 10), "log-linear")).toThrow(
      'rule must be "equal area" or "log-Tchebycheff"',
    );
    expect(() => fieldLayout(round(20), "log" as TraverseRule)).toThrow("rule must be");
    expect(() => fieldLayout(rectangular(400, 2), "equal area")).toThrow(
      "widthIn must be from 1/96 to 96 times the height for equal area, but is 400",
    );
    expect(() => fieldLayout(round(Number.NaN), "equal area")).toThrow("diameterIn must be above 0");
  });
});
