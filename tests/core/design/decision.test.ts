import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { designDecision, designVerdict } from "../../../src/core/index.js";
import { expectRefusal, NOT_NUMBERS, positive, signed } from "../numbers.js";

/*
 * The guard band on both sides of a limit is as wide as the ± (Eurachem/CITAC, Use of uncertainty information in
 * compliance assessment, 2021, 4.2 to 4.4, read). Each row by hand: at 100 with 10 % either way the limits are 90 and 110.
 */
const CASES: readonly (readonly [measured: number, plusMinus: number, verdict: string, decision: string])[] = [
  [100, 9, "within", "within"],
  [100, 10, "within", "within"],
  [100, 10.1, "within", "open"],
  [108, 1, "within", "within"],
  [108, 3, "within", "open"],
  [92, 3, "within", "open"],
  [112, 3, "high", "open"],
  [114, 3, "high", "high"],
  [88, 3, "low", "open"],
  [86, 3, "low", "low"],
  [-5, 1, "low", "low"],
];

const limit = fc.integer({ min: 0, max: 99 });

describe("the decision beside a verdict", () => {
  it.each(CASES)(
    "of %d ± %d is %s by simple acceptance and %s by the guarded rule",
    (measured, band, verdict, decision) => {
      expect(designDecision(measured, 100, band, 10, 10)).toEqual({ verdict, isOpen: decision === "open", decision });
    },
  );

  it("takes the limit on each side by itself", () => {
    expect(designDecision(94, 100, 2, 5, 10).decision).toBe("open");
    expect(designDecision(94, 100, 2, 10, 5).decision).toBe("within");
    expect(designDecision(106, 100, 2, 10, 5).decision).toBe("open");
    expect(designDecision(106, 100, 2, 5, 10).decision).toBe("within");
  });

  it("without a ± is the verdict, and is never open", () => {
    fc.assert(
      fc.property(signed, positive, limit, limit, (measured, design, minus, plus) => {
        const verdict = designVerdict(measured, design, minus, plus);
        expect(designDecision(measured, design, 0, minus, plus)).toEqual({ verdict, isOpen: false, decision: verdict });
      }),
    );
  });

  it("that holds at a wide ± holds at every narrower one", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const band = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(
      fc.property(signed, positive, band, share, limit, (measured, design, wide, part, percent) => {
        const { decision, isOpen } = designDecision(measured, design, wide, percent, percent);
        if (!isOpen) expect(designDecision(measured, design, wide * part, percent, percent).decision).toBe(decision);
      }),
    );
  });

  it("refuses a ± below 0 or that is no number", () => {
    for (const wrong of [-0.1, ...NOT_NUMBERS]) {
      expectRefusal(() => designDecision(100, 100, wrong, 10, 10), "expandedFlow", "0 or more", wrong);
    }
  });
});
