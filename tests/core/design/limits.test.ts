import { describe, expect, it } from "vitest";
import { isAboveDesign, isBelowDesign, limitRatios, requireMinus } from "../../../src/core/design/design-limits.js";
import { expectRefusal, NOT_NUMBERS } from "../numbers.js";

describe("the limits of a design", () => {
  it("are shares of it, each side by itself", () => {
    const { lowRatio, highRatio } = limitRatios({ minusPercent: 5, plusPercent: 20 });
    expect(lowRatio).toBeCloseTo(0.95, 12);
    expect(highRatio).toBeCloseTo(1.2, 12);
    expect(limitRatios({ minusPercent: 0, plusPercent: 0 })).toEqual({ lowRatio: 1, highRatio: 1 });
  });

  it("refuse a lower one that an outlet without air would meet, and an upper one below design", () => {
    for (const wrong of [-0.1, 100, 150, ...NOT_NUMBERS]) {
      const refusal = [() => requireMinus(wrong), () => limitRatios({ minusPercent: wrong, plusPercent: 10 })];
      for (const refused of refusal) expectRefusal(refused, "minusPercent", "from 0 to below 100", wrong);
    }
    for (const wrong of [-0.1, ...NOT_NUMBERS]) {
      expectRefusal(() => limitRatios({ minusPercent: 10, plusPercent: wrong }), "plusPercent", "0 or more", wrong);
    }
    expect(() => requireMinus(0)).not.toThrow();
    expect(() => requireMinus(99.9)).not.toThrow();
  });

  it("are allowed themselves", () => {
    expect([isBelowDesign(95, 100, 5), isBelowDesign(94.9, 100, 5)]).toEqual([false, true]);
    expect([isAboveDesign(110, 100, 10), isAboveDesign(110.1, 100, 10)]).toEqual([false, true]);
  });
});
