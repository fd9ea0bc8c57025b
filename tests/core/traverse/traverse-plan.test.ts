import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type DuctSection,
  fieldLayout,
  flatOvalStrips,
  hydraulicDiameter,
  insertionDepths,
  minimumWallDistance,
  sidePoints,
  siteCheck,
  traversePlan,
} from "../../../src/core/index.js";

const round: DuctSection = { shape: "round", diameterIn: 10 };
const rectangular: DuctSection = { shape: "rectangular", widthIn: 24, heightIn: 12 };

describe("the plan of a round duct", () => {
  it("turns its diameters by equal angles: 90°, 60° or 45°", () => {
    for (const count of [2, 3, 4]) {
      const { lines } = traversePlan(round, "log-linear", count, 6, 0, 0);
      expect(lines).toHaveLength(count);
      const angles = lines.map(({ hole }) => (Math.atan2(5 - hole.yIn, 5 - hole.xIn) * 180) / Math.PI);
      for (const [index, angle] of angles.entries()) expect(angle).toBeCloseTo((index * 180) / count, 10);
    }
  });

  it("drills at the left and at the bottom, and ends a line opposite its hole", () => {
    const { lines } = traversePlan(round, "equal area", 2, 4, 0, 0);
    expect(lines[0]).toEqual({ line: 1, hole: { xIn: 0, yIn: 5 }, end: { xIn: 10, yIn: 5 } });
    expect(lines[1]?.hole.xIn).toBeCloseTo(5, 12);
    expect(lines[1]?.hole.yIn).toBe(0);
    expect(lines[1]?.end.yIn).toBe(10);
  });

  it("places each point on its line at its depth less the wall", () => {
    const { lines, points } = traversePlan(round, "log-linear", 3, 8, 1.5, 0);
    expect(points).toHaveLength(24);
    for (const point of points) {
      const hole = lines[point.line - 1]?.hole ?? { xIn: Number.NaN, yIn: Number.NaN };
      expect(Math.hypot(point.xIn - hole.xIn, point.yIn - hole.yIn)).toBeCloseTo(point.depthIn - 1.5, 10);
      expect(Math.hypot(point.xIn - 5, point.yIn - 5)).toBeLessThan(5);
    }
    expect(points.slice(0, 8).map(({ depthIn }) => depthIn)).toEqual(insertionDepths(round, "log-linear", 8, 1.5, 0));
  });

  it("tells which points were moved off the wall and which of them meet", () => {
    // 6 in, 10 points: x = 0.0257, 0.0817 and 0.1464 are 0.154, 0.490 and 0.879 in.
    const { points } = traversePlan({ shape: "round", diameterIn: 6 }, "equal area", 2, 10, 0, 0.5);
    const first = points.slice(0, 10);
    expect(first.map(({ wasMoved }) => wasMoved)).toEqual([true, true, ...Array(6).fill(false), true, true]);
    expect(first.map(({ timesCounted }) => timesCounted)).toEqual([2, 2, 1, 1, 1, 1, 1, 1, 2, 2]);
    expect(first.map(({ depthIn }) => depthIn).slice(0, 2)).toEqual([0.5, 0.5]);
  });

  it("is refused with one diameter or more than four", () => {
    for (const count of [0, 1, 5, 2.5, Number.NaN]) {
      expect(() => traversePlan(round, "equal area", count, 6, 0, 0)).toThrow("lines must be 2, 3 or 4 diameters");
    }
  });
});

describe("the plan of a flat oval duct", () => {
  const oval = { shape: "flat oval", majorIn: 24, minorIn: 12 } as const;

  it("runs upright lines from holes in the upper side, each point at its depth less the wall", () => {
    const { lines, points } = traversePlan(oval, "equal area", 4, 3, 0.5, 0);
    expect(points.map(({ number }) => number)).toEqual(Array.from({ length: 12 }, (_, index) => index + 1));
    for (const point of points) {
      const { hole, end } = lines[point.line - 1] ?? { hole: { xIn: 0, yIn: 0 }, end: { xIn: 0, yIn: 0 } };
      expect(end.xIn).toBe(hole.xIn);
      expect(hole.yIn + end.yIn).toBeCloseTo(12, 12);
      expect(hole.yIn - point.yIn).toBeCloseTo(point.depthIn - 0.5, 12);
      // Hole and end lie on the wall: on a flat side, or on the half circle around (6, 6).
      const fromEnd = Math.min(hole.xIn, 24 - hole.xIn);
      if (fromEnd >= 6) expect(hole.yIn).toBe(12);
      else expect(Math.hypot(6 - fromEnd, hole.yIn - 6)).toBeCloseTo(6, 9);
    }
  });

  it("divides the duct into strips of equal area, of which each middle halves its own", () => {
    const strips = flatOvalStrips(24, 12, 5);
    const halves = flatOvalStrips(24, 12, 10);
    expect(strips[0]?.leftIn).toBe(0);
    expect(strips[4]?.rightIn).toBe(24);
    for (const [index, { leftIn, rightIn, middleIn }] of strips.entries()) {
      expect(halves[2 * index]?.leftIn).toBeCloseTo(leftIn, 9);
      expect(halves[2 * index]?.rightIn).toBeCloseTo(middleIn, 9);
      expect(halves[2 * index + 1]?.rightIn).toBeCloseTo(rightIn, 9);
    }
    // The middle strip lies between the flat sides: a fifth of 257.097 in² over 12 in.
    expect((strips[2]?.rightIn ?? 0) - (strips[2]?.leftIn ?? 0)).toBeCloseTo(257.0973 / 5 / 12, 5);
  });

  it("keeps points off the wall, and takes equal area alone", () => {
    const near = traversePlan({ ...oval, majorIn: 8, minorIn: 4 }, "equal area", 3, 6, 0, 0.5);
    expect(near.points.slice(6, 12).map(({ depthIn }) => depthIn)).toEqual(
      [0.5, 1, 5 / 3, 7 / 3, 3, 3.5].map((depth) => expect.closeTo(depth, 9)),
    );
    expect(near.points[6]?.wasMoved).toBe(true);
    expect(() => traversePlan(oval, "log-Tchebycheff", 4, 3, 0, 0)).toThrow('rule must be "equal area"');
    expect(() => fieldLayout(oval, "log-linear")).toThrow('rule must be "equal area"');
  });

  it("takes as many points as a rectangle of its sides, and least distances by its hydraulic diameter", () => {
    const { lines, pointsPerLine } = fieldLayout(oval, "equal area");
    const rectangle = fieldLayout({ shape: "rectangular", widthIn: 12, heightIn: 24 }, "equal area");
    expect({ lines, pointsPerLine }).toEqual({ lines: rectangle.lines, pointsPerLine: rectangle.pointsPerLine });
    // 4 · 257.10 in² / 61.70 in (plane geometry).
    expect(hydraulicDiameter(oval)).toBeCloseTo(16.668, 3);
    expect(minimumWallDistance(oval)).toBe(0.5);
    expect(minimumWallDistance({ ...oval, majorIn: 60, minorIn: 20 })).toBe(1);
    expect(() => minimumWallDistance({ ...oval, minorIn: 0.9 })).toThrow("minorIn must be 1 in");
    expect(siteCheck(oval, 8 * 16.669, 2 * 16.669).verdict).toBe("good");
    expect(siteCheck(oval, 8 * 16.66, 2 * 16.669).verdict).toBe("usable");
  });
});

describe("the plan of a rectangular duct", () => {
  it("runs level lines across the width, the lowest first", () => {
    const { lines, points } = traversePlan(rectangular, "log-Tchebycheff", 5, 6, 0.5, 0);
    const heights = sidePoints("log-Tchebycheff", 5).map((position) => position * 12);
    expect(lines.map(({ hole }) => hole)).toEqual(heights.map((yIn) => ({ xIn: 0, yIn })));
    expect(lines.map(({ end }) => end)).toEqual(heights.map((yIn) => ({ xIn: 24, yIn })));
    expect(points).toHaveLength(30);
    for (const { line, xIn, yIn, depthIn } of points) {
      expect(yIn).toBe(heights[line - 1]);
      expect(depthIn).toBeCloseTo(xIn + 0.5, 12);
    }
  });

  it("moves lines as well as points off the walls", () => {
    // 4 by 3 in with 8 by 4 cells: 0.25 in and 0.375 in from the walls.
    const duct: DuctSection = { shape: "rectangular", widthIn: 4, heightIn: 3 };
    const { points } = traversePlan(duct, "equal area", 4, 8, 0, 0.5);
    const corner = points[0];
    expect(corner).toMatchObject({ xIn: 0.5, yIn: 0.5, depthIn: 0.5, wasMoved: true, timesCounted: 1 });
    expect(points[2]).toMatchObject({ xIn: 1.25, yIn: 0.5, depthIn: 1.25, wasMoved: true });
    expect(points[10]).toMatchObject({ line: 2, pointOnLine: 3, xIn: 1.25, yIn: 1.125, wasMoved: false });
  });

  it("counts a reading once for each line and point that meet in a corner", () => {
    const duct: DuctSection = { shape: "rectangular", widthIn: 4, heightIn: 4 };
    const { points } = traversePlan(duct, "equal area", 8, 8, 0, 1);
    expect(points[0]).toMatchObject({ xIn: 1, yIn: 1, timesCounted: 4 });
    expect(points[2]).toMatchObject({ xIn: 1.25, yIn: 1, timesCounted: 2 });
    expect(points[18]).toMatchObject({ xIn: 1.25, yIn: 1.25, timesCounted: 1 });
  });

  it("is refused with a rule or a number of lines that there is not, or too little room for the distance", () => {
    expect(() => traversePlan(rectangular, "log-linear", 6, 6, 0, 0)).toThrow("for a rectangular duct");
    expect(() => traversePlan(rectangular, "log-Tchebycheff", 10, 6, 0, 0)).toThrow("3 to 9 or 11");
    expect(() => traversePlan(rectangular, "log-Tchebycheff", 6, 10, 0, 0)).toThrow("3 to 9 or 11");
    expect(() => traversePlan(rectangular, "equal area", 4, 4, 0, 7)).toThrow("must be from 0 to 6");
    expect(() => traversePlan(rectangular, "equal area", 4, 4, -1, 0)).toThrow("wallIn must be 0 or more");
  });
});

describe("every plan", () => {
  const section = fc.oneof(
    fc.double({ min: 2, max: 80, noNaN: true }).map((diameterIn): DuctSection => ({ shape: "round", diameterIn })),
    fc
      .tuple(fc.double({ min: 2, max: 80, noNaN: true }), fc.double({ min: 2, max: 80, noNaN: true }))
      .map(([widthIn, heightIn]): DuctSection => ({ shape: "rectangular", widthIn, heightIn })),
  );

  it("numbers its points from 1, line by line, and keeps them the least distance inside the duct", () => {
    fc.assert(
      fc.property(section, fc.constantFrom(2, 3, 4), fc.constantFrom(2, 4, 6, 10), (duct, lineCount, perLine) => {
        const { points, lines } = traversePlan(duct, "equal area", lineCount, perLine, 0, 0.5);
        expect(lines.map(({ line }) => line)).toEqual(Array.from({ length: lineCount }, (_, index) => index + 1));
        for (const [index, point] of points.entries()) {
          expect(point.number).toBe(index + 1);
          expect(point.number).toBe((point.line - 1) * perLine + point.pointOnLine);
          const fromWallIn =
            duct.shape === "round"
              ? duct.diameterIn / 2 - Math.hypot(point.xIn - duct.diameterIn / 2, point.yIn - duct.diameterIn / 2)
              : Math.min(point.xIn, point.yIn, duct.widthIn - point.xIn, duct.heightIn - point.yIn);
          expect(fromWallIn).toBeGreaterThanOrEqual(0.5 - 1e-9);
        }
      }),
    );
  });
});
