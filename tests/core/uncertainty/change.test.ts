import { describe, expect, it } from "vitest";
import { changeByRepeatability, changeByUncertainty, changePercent, changeVerdict } from "../../../src/core/index.js";

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
    const answer = changeByRepeatability(400, 440, 8, 9);
    expect(answer.z).toBeCloseTo(3.32, 2);
    expect(answer.isShown).toBe(true);
    expect(answer.words).toBe("higher (repeatability: z 3.3)");
  });

  it("falls as well as rises, and says when nothing is shown", () => {
    expect(changeByRepeatability(440, 400, 8, 9).words).toBe("lower (repeatability: z 3.3)");
    expect(changeByRepeatability(400, 410, 8, 9).words).toBe("no change shown (repeatability: z 0.8)");
  });

  it("needs more than twice the doubt: exactly twice is not shown", () => {
    expect(changeByRepeatability(100, 110, 3, 4).isShown).toBe(false);
    expect(changeByRepeatability(100, 110.01, 3, 4).isShown).toBe(true);
  });

  it("cannot be answered from results nobody repeated", () => {
    expect(() => changeByRepeatability(400, 440, 0, 0)).toThrow("afterStandard must be above 0 when beforeStandard is");
    expect(() => changeByRepeatability(400, 440, -1, 9)).toThrow("beforeStandard must be 0 or more");
    expect(() => changeByRepeatability(400, 440, 8, -1)).toThrow("afterStandard must be 0 or more");
    expect(() => changeByRepeatability(Number.NaN, 440, 8, 9)).toThrow("before must be a finite number");
    expect(() => changeByRepeatability(400, Number.NaN, 8, 9)).toThrow("after must be a finite number");
  });
});

describe("by how much is it known? (full uncertainty)", () => {
  it("850 to 980, each ±10 %: just shown, En 1.002 (derived by hand)", () => {
    const answer = changeByUncertainty(850, 980, 85, 98);
    expect(answer.normalizedError).toBeCloseTo(1.002, 3);
    expect(answer.changeExpanded).toBeCloseTo(129.7, 1);
    expect(answer.isShown).toBe(true);
    expect(answer.words).toBe("amount 130 ±130 (full uncertainty: En 1.00)");
  });

  it("400 to 440, each ±11 %: not shown, En 0.61 (derived by hand)", () => {
    const answer = changeByUncertainty(400, 440, 44, 48.4);
    expect(answer.normalizedError).toBeCloseTo(0.61, 2);
    expect(answer.isShown).toBe(false);
    expect(answer.words).toBe("amount not known better than 40 ±65 (full uncertainty: En 0.61)");
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
    { value: 400, repeatStandard: 8, expanded: 44 },
    { value: 440, repeatStandard: 9, expanded: 48.4 },
  );

  it("may have different answers: the face changed, and by how much is not known", () => {
    expect(verdict.changePercent).toBeCloseTo(10, 10);
    expect(verdict.didChange).toMatchObject({ basis: "repeatability", isShown: true });
    expect(verdict.howMuch).toMatchObject({ basis: "full uncertainty", isShown: false });
  });

  it("are told apart in words by what each rests on", () => {
    expect(verdict.words).toBe(
      "higher (repeatability: z 3.3); amount not known better than 40 ±65 (full uncertainty: En 0.61)",
    );
  });
});
