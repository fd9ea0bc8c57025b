import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  diameterPoints,
  equalAreaDiameterPoints,
  equalAreaSidePoints,
  logLinearDiameterPoints,
  logTchebycheffDiameterPoints,
  logTchebycheffSidePoints,
  sidePoints,
  type TraverseRule,
} from "../../../src/core/index.js";

const evenFrom = (least: number, most: number) =>
  fc.integer({ min: least / 2, max: most / 2 }).map((perRadius) => 2 * perRadius);

/** Every rule with every number of points that it has. */
const lines = fc.oneof(
  evenFrom(2, 200).map(equalAreaDiameterPoints),
  evenFrom(4, 200).map(logLinearDiameterPoints),
  fc.constantFrom(4, 6, 8, 10, 12, 14, 16, 20).map(logTchebycheffDiameterPoints),
  fc.integer({ min: 1, max: 200 }).map(equalAreaSidePoints),
  fc.constantFrom(3, 4, 5, 6, 7, 8, 9, 11).map(logTchebycheffSidePoints),
);

describe("the points of every rule", () => {
  it("lie inside the duct, each farther than the one before", () => {
    fc.assert(
      fc.property(lines, (positions) => {
        const all = [0, ...positions, 1];
        for (const [index, position] of all.slice(1).entries()) expect(position).toBeGreaterThan(all[index] ?? 1);
      }),
    );
  });

  it("are symmetric about the center", () => {
    fc.assert(
      fc.property(lines, (positions) => {
        const mirror = [...positions].reverse();
        for (const [index, position] of positions.entries()) {
          expect(position + (mirror[index] ?? 0)).toBeCloseTo(1, 14);
        }
      }),
    );
  });
});

describe("equal area on a diameter", () => {
  it("leaves half of each annulus on either side of its point", () => {
    fc.assert(
      fc.property(evenFrom(2, 200), (count) => {
        const positions = equalAreaDiameterPoints(count);
        for (let k = 1; k <= count / 2; k += 1) {
          const radius = 1 - 2 * (positions[count / 2 - k] ?? 0);
          const annulus = [(k - 1) / (count / 2), k / (count / 2)] as const;
          expect(radius ** 2).toBeCloseTo((annulus[0] + annulus[1]) / 2, 12);
        }
      }),
    );
  });

  it("repeats the single point of an annulus wherever its share of the area is the same", () => {
    for (const [count, index] of [
      [6, 1],
      [10, 2],
      [14, 3],
      [18, 4],
      [22, 5],
    ] as const) {
      expect(equalAreaDiameterPoints(count)[index]).toBeCloseTo(equalAreaDiameterPoints(2)[0] ?? 0, 14);
    }
  });
});

describe("log-linear on a diameter", () => {
  it("gives the mean of every profile of a logarithm and a straight line, for an even number of points a radius", () => {
    // Area means over the whole circle: y/D has 1/6, ln(y/D) has -3/2 - ln 2.
    fc.assert(
      fc.property(evenFrom(2, 100), (perRadius) => {
        const near = logLinearDiameterPoints(2 * perRadius).slice(0, perRadius);
        const mean = (of: (y: number) => number) => near.reduce((sum, y) => sum + of(y), 0) / perRadius;
        expect(mean((y) => y)).toBeCloseTo(1 / 6, 12);
        expect(mean(Math.log)).toBeCloseTo(-1.5 - Math.LN2, 12);
      }),
    );
  });

  it("keeps the logarithm's mean where a single point stands at the wall", () => {
    for (const perRadius of [3, 5, 7, 21]) {
      const near = logLinearDiameterPoints(2 * perRadius).slice(0, perRadius);
      expect(near.reduce((sum, y) => sum + Math.log(y), 0) / perRadius).toBeCloseTo(-1.5 - Math.LN2, 12);
    }
  });
});

describe("log-Tchebycheff", () => {
  it("puts the point at the wall of a side where the logarithm has the mean of its strip", () => {
    // The mean of ln x from 0 to 1/n is ln(1/n) - 1.
    for (const count of [3, 4, 5, 6, 7, 8, 9, 11]) {
      expect(Math.log(logTchebycheffSidePoints(count)[0] ?? 0)).toBeCloseTo(Math.log(1 / count) - 1, 12);
    }
  });

  it("averages every polynomial up to the number of inner points exactly over the inner part of a side", () => {
    for (const count of [3, 4, 5, 6, 7, 8, 9, 11]) {
      const inner = logTchebycheffSidePoints(count).slice(1, -1);
      const [low, high] = [1 / count, 1 - 1 / count];
      for (let degree = 0; degree <= inner.length; degree += 1) {
        const exact = (high ** (degree + 1) - low ** (degree + 1)) / (degree + 1) / (high - low);
        expect(inner.reduce((sum, x) => sum + x ** degree, 0) / inner.length).toBeCloseTo(exact, 13);
      }
    }
  });

  it("averages powers of the squared radius exactly over the inner part of a circle", () => {
    for (const perRadius of [2, 3, 4, 5, 6, 7, 8, 10]) {
      const inner = logTchebycheffDiameterPoints(2 * perRadius).slice(1, perRadius);
      const innerArea = 1 - 1 / perRadius;
      for (let degree = 0; degree <= inner.length; degree += 1) {
        const mean = inner.reduce((sum, y) => sum + (1 - 2 * y) ** (2 * degree), 0) / inner.length;
        expect(mean).toBeCloseTo(innerArea ** degree / (degree + 1), 13);
      }
    }
  });

  it("is not the log-linear rule, for which it is often taken", () => {
    expect(logTchebycheffDiameterPoints(6)[1]).toBeCloseTo(0.1374, 4);
    expect(logLinearDiameterPoints(6)[1]).toBeCloseTo(0.1349, 4);
  });
});

describe("a number of points that a rule does not have is refused", () => {
  const notWhole = [Number.NaN, Number.POSITIVE_INFINITY, 2.5, -4, 0];

  it("by equal area on a diameter: odd, below 2 or above 200", () => {
    for (const count of [...notWhole, 1, 3, 5, 202]) {
      expect(() => equalAreaDiameterPoints(count)).toThrow(
        `pointsPerDiameter must be an even number from 2 to 200, but is ${count}`,
      );
    }
    expect(equalAreaDiameterPoints(200)).toHaveLength(200);
  });

  it("by equal area along a side: not whole, below 1 or above 200", () => {
    for (const count of [...notWhole, 201]) {
      expect(() => equalAreaSidePoints(count)).toThrow("pointsPerSide must be a whole number from 1 to 200");
    }
    expect(equalAreaSidePoints(1)).toEqual([0.5]);
    expect(equalAreaSidePoints(200)).toHaveLength(200);
  });

  it("by log-linear: odd, or one point a radius, which cannot follow two terms", () => {
    for (const count of [...notWhole, 2, 3, 7, 202]) {
      expect(() => logLinearDiameterPoints(count)).toThrow("pointsPerDiameter must be an even number from 4 to 200");
    }
  });

  it("by log-Tchebycheff along a side: 10 and 12 and more, whose inner points are not real", () => {
    for (const count of [...notWhole, 1, 2, 10, 12, 13, 1e9]) {
      expect(() => logTchebycheffSidePoints(count)).toThrow(
        `pointsPerSide must be 3 to 9 or 11 for log-Tchebycheff (other counts have no points of equal weight), but is ${count}`,
      );
    }
  });

  it("by log-Tchebycheff on a diameter: 18, 22 and more, and odd ones", () => {
    for (const count of [...notWhole, 2, 5, 18, 22, 24, 1e9]) {
      expect(() => logTchebycheffDiameterPoints(count)).toThrow(
        `pointsPerDiameter must be an even number from 4 to 16, or 20, for log-Tchebycheff (other counts have no points of equal weight), but is ${count}`,
      );
    }
  });
});

describe("the rule by name", () => {
  it("leads to the rule on a diameter", () => {
    expect(diameterPoints("equal area", 10)).toEqual(equalAreaDiameterPoints(10));
    expect(diameterPoints("log-linear", 10)).toEqual(logLinearDiameterPoints(10));
    expect(diameterPoints("log-Tchebycheff", 10)).toEqual(logTchebycheffDiameterPoints(10));
  });

  it("leads to the rule along a side", () => {
    expect(sidePoints("equal area", 5)).toEqual(equalAreaSidePoints(5));
    expect(sidePoints("log-Tchebycheff", 5)).toEqual(logTchebycheffSidePoints(5));
  });

  it("is refused where nobody knows it, and where a rectangle has no such grid", () => {
    const unknown = "log" as TraverseRule;
    expect(() => diameterPoints(unknown, 6)).toThrow('rule must be "equal area", "log-linear" or "log-Tchebycheff"');
    expect(() => sidePoints(unknown, 6)).toThrow('rule must be "equal area" or "log-Tchebycheff" for a rectangular');
    expect(() => sidePoints("log-linear", 6)).toThrow("for a rectangular duct, but is log-linear");
  });
});
