import { describe, expect, it } from "vitest";
import {
  changeByRepeatability,
  changeByUncertainty,
  changePercent,
  changeVerdict,
  compareSweeps,
} from "../../../src/core/index.js";

const known = Number.POSITIVE_INFINITY;

describe("the change in percent", () => {
  it("is of what it was before, and negative where it fell", () => {
    expect(changePercent(400, 500)).toBe(25);
    expect(changePercent(500, 400)).toBe(-20);
    expect(changePercent(400, 0)).toBe(-100);
  });

  it("has no meaning where nothing flowed before", () => {
    expect(() => changePercent(0, 100)).toThrow("before must be above 0, but is 0");
    expect(() => changePercent(100, Number.NaN)).toThrow("after must be a finite number");
  });
});

describe("did it change? (repeatability)", () => {
  it("400 to 440, repeatable to 8 and 9: shown, z 3.32 (derived by hand)", () => {
    const answer = changeByRepeatability(400, 440, 8, 9, known);
    expect(answer.z).toBeCloseTo(3.32, 2);
    expect(answer.answer).toBe("higher");
    expect(answer.smallestShown).toBeCloseTo(2 * Math.hypot(8, 9), 10);
  });

  it("falls as well as rises, and says when nothing is clear", () => {
    expect(changeByRepeatability(440, 400, 8, 9, known).answer).toBe("lower");
    expect(changeByRepeatability(400, 410, 8, 9, known).answer).toBe("no clear change");
  });

  it("needs more than its limit: exactly twice is not shown, and few repeats ask for more", () => {
    expect(changeByRepeatability(100, 110, 3, 4, known).isShown).toBe(false);
    expect(changeByRepeatability(100, 110.01, 3, 4, known).isShown).toBe(true);
    expect(changeByRepeatability(100, 122, 3, 4, 2).isShown).toBe(false);
    expect(changeByRepeatability(100, 123, 3, 4, 2).isShown).toBe(true);
  });

  it("cannot be answered without any doubt or from no repeats", () => {
    expect(() => changeByRepeatability(400, 440, 0, 0, known)).toThrow("afterStandard must be above 0 when before");
    expect(() => changeByRepeatability(400, 440, -1, 9, known)).toThrow("beforeStandard must be 0 or more");
    expect(() => changeByRepeatability(400, 440, 8, -1, known)).toThrow("afterStandard must be 0 or more");
    expect(() => changeByRepeatability(Number.NaN, 440, 8, 9, known)).toThrow("before must be a finite number");
    expect(() => changeByRepeatability(400, Number.NaN, 8, 9, known)).toThrow("after must be a finite number");
    expect(() => changeByRepeatability(400, 440, 8, 9, 0)).toThrow("degreesOfFreedom must be 1 or more");
  });
});

describe("did it change? (sweeps)", () => {
  const side = (value: number, sweepCount: number, sweepPercent: number | null) => ({
    value,
    sweepCount,
    sweepPercent,
  });

  it("with two sweeps each pools their scatter: Student's test with two degrees of freedom (by hand)", () => {
    // s = √((2² + 4²) / 2) = 3.162 %; u = 3.162 % · √(400² + 440²) / √2 = 13.30; k of two degrees 4.53
    const answer = compareSweeps(side(400, 2, 2), side(440, 2, 4), 0);
    expect(answer.z).toBeCloseTo(40 / 13.3, 2);
    expect(answer.coverageFactor).toBe(4.53);
    expect(answer.isShown).toBe(false);
    expect(answer.words).toBe("no clear change (2 and 2 sweeps: a change under 15 % would not show)");
  });

  it("from four sweeps on each side lets each scatter for itself: Welch's test (by hand)", () => {
    // u₁ = 2 % · 400 / √4 = 4, u₂ = 6 % · 440 / √4 = 13.2; ν = 190.2² / (4⁴ / 3 + 13.2⁴ / 3) = 3.547, k between 3.31 and 2.87
    const answer = compareSweeps(side(400, 4, 2), side(440, 4, 6), 0);
    expect(answer.z).toBeCloseTo(40 / Math.hypot(4, 13.2), 6);
    expect(answer.coverageFactor).toBeCloseTo(3.31 - 0.547 * 0.44, 3);
  });

  it("with one sweep each makes no statement finer than the assumed repeatability allows", () => {
    // 5 % assumed: 2 · √2 · 5 % = 14.1 % of equal results; of 400 and 440 14.9 %
    const answer = compareSweeps(side(400, 1, null), side(440, 1, null), 0);
    expect(answer.words).toBe(
      "no clear change (one sweep each, repeatability assumed: a change under 15 % would not show)",
    );
    expect(compareSweeps(side(400, 1, null), side(500, 1, null), 0).answer).toBe("higher");
  });

  it("knows no mean better than the display allows, however alike the sweeps are (by hand)", () => {
    // Steps of 10 fpm: 10 / √12 = 2.887 on each mean; two degrees of freedom, k 4.53: 4.53 · √2 · 2.887 = 18.5.
    const alike = compareSweeps(side(400, 2, 0), side(410, 2, 0), 10);
    expect(alike).toMatchObject({ isAssumed: false, isShown: false, coverageFactor: 4.53 });
    expect(alike.smallestShown).toBeCloseTo(18.49, 2);
    expect(compareSweeps(side(400, 2, 0), side(420, 2, 0), 10).answer).toBe("higher");
    // Sweeps that scatter by more than the display hides are as they were.
    expect(compareSweeps(side(400, 3, 2), side(440, 3, 2), 1)).toEqual(
      compareSweeps(side(400, 3, 2), side(440, 3, 2), 0),
    );
    // With one sweep each the step comes on top of what is assumed: 5 % of 40 is 2, and 10 / √12.
    expect(compareSweeps(side(40, 1, null), side(40, 1, null), 10).smallestShown).toBeCloseTo(
      2 * Math.SQRT2 * Math.hypot(2, 2.887),
      2,
    );
    // Welch's, each side by its own: one alike, one not.
    const own = compareSweeps(side(400, 4, 0), side(400, 4, 4), 10);
    expect(own.smallestShown / own.coverageFactor).toBeCloseTo(Math.hypot(10 / Math.sqrt(12), 8), 6);
    expect(() => compareSweeps(side(400, 2, 0), side(420, 2, 0), -1)).toThrow("resolution must be 0 or more");
  });

  it("takes the scatter of one side for both where the other side has but one sweep", () => {
    const answer = compareSweeps(side(400, 3, 2), side(440, 1, null), 0);
    expect(answer.isAssumed).toBe(false);
    expect(answer.coverageFactor).toBe(4.53);
  });

  it("assumes a repeatability for sweeps that agree to the last digit, and refuses counts that are none", () => {
    expect(compareSweeps(side(400, 2, 0), side(440, 2, 0), 0)).toMatchObject({ isAssumed: true, isShown: false });
    expect(() => compareSweeps(side(400, 0, null), side(440, 1, null), 0)).toThrow("sweeps must be 1 or more");
    expect(() => compareSweeps(side(400, 2, -1), side(440, 1, null), 0)).toThrow("sweepPercent must be 0 or more");
    expect(() => compareSweeps(side(0, 2, 1), side(440, 1, null), 0)).toThrow("before must be above 0");
  });
});

describe("by how much is it known? (full uncertainty)", () => {
  it("850 to 980, each ±10 %: just shown, En 1.002 (derived by hand)", () => {
    const answer = changeByUncertainty(850, 980, 85, 98);
    expect(answer.normalizedError).toBeCloseTo(1.002, 3);
    expect(answer.changeExpanded).toBeCloseTo(129.7, 1);
    expect(answer.isShown).toBe(true);
    expect(answer.words).toBe("change 130 ± 130");
  });

  it("400 to 440, each ±11 %: not shown, En 0.61 (derived by hand)", () => {
    const answer = changeByUncertainty(400, 440, 44, 48.4);
    expect(answer.normalizedError).toBeCloseTo(0.61, 2);
    expect(answer.isShown).toBe(false);
    expect(answer.words).toBe("change 40 ± 65: too small to state");
  });

  it("needs more than the doubt itself: exactly its size is not shown", () => {
    expect(changeByUncertainty(100, 105, 3, 4).isShown).toBe(false);
    expect(changeByUncertainty(100, 105.01, 3, 4).isShown).toBe(true);
  });

  it("refuses results without any doubt, and doubts below 0", () => {
    expect(() => changeByUncertainty(850, 980, 0, 0)).toThrow("afterExpanded must be above 0 when beforeExpanded is 0");
    expect(() => changeByUncertainty(850, 980, -1, 98)).toThrow("beforeExpanded must be 0 or more");
    expect(() => changeByUncertainty(850, 980, 85, -1)).toThrow("afterExpanded must be 0 or more");
    expect(() => changeByUncertainty(Number.NaN, 980, 85, 98)).toThrow("before must be a finite number");
    expect(() => changeByUncertainty(850, Number.NaN, 85, 98)).toThrow("after must be a finite number");
  });
});

describe("both questions together", () => {
  const verdict = changeVerdict(
    { value: 400, sweepCount: 6, sweepPercent: 4, expanded: 44 },
    { value: 440, sweepCount: 6, sweepPercent: 4, expanded: 48.4 },
    0,
  );

  it("may have different answers: it changed, and by how much is not known", () => {
    expect(verdict.changePercent).toBeCloseTo(10, 10);
    expect(verdict.didChange.isShown).toBe(true);
    expect(verdict.howMuch.isShown).toBe(false);
  });

  it("are told in words without a figure of statistics", () => {
    expect(verdict.words).toBe(
      "higher (6 and 6 sweeps: a change under 5.5 % would not show); change 40 ± 65: too small to state",
    );
    expect(verdict.words).not.toMatch(/\bz\b|En|variance/);
  });
});
