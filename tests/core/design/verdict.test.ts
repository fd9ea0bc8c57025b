import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { designVerdict, percentOfDesign } from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, positive, signed } from "../numbers.js";

const limit = fc.integer({ min: 0, max: 100 });

describe("the percent of design", () => {
  it("is 100 at design and keeps the sign of air that runs the wrong way", () => {
    expect(percentOfDesign(150, 150)).toBe(100);
    expect(percentOfDesign(0, 150)).toBe(0);
    expect(percentOfDesign(-15, 150)).toBe(-10);
  });

  it("does not change with the unit of the airflows", () => {
    fc.assert(
      fc.property(signed, positive, positive, (measured, design, factor) => {
        expectSame(percentOfDesign(measured * factor, design * factor), percentOfDesign(measured, design));
      }),
    );
  });

  it.each([0, -150, ...NOT_NUMBERS])("is not defined for a design of %d", (design) => {
    expectRefusal(() => percentOfDesign(100, design), "designFlow", "above 0", design);
    expectRefusal(() => designVerdict(100, design, 5, 10), "designFlow", "above 0", design);
  });

  it.each(NOT_NUMBERS)("is not defined for a measured airflow of %d", (measured) => {
    expectRefusal(() => percentOfDesign(measured, 100), "measuredFlow", "a finite number", measured);
    expectRefusal(() => designVerdict(measured, 100, 5, 10), "measuredFlow", "a finite number", measured);
  });

  it("is refused when it is too large to hold", () => {
    expectRefusal(() => percentOfDesign(1e300, 1e-300), "percent of design", "small enough to calculate with");
  });
});

describe("the verdict", () => {
  it("passes both limits in every decimal that a sheet can hold", () => {
    // Airflows in tenths: both sides of the comparison are whole numbers, so that the limit is met exactly on paper.
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1_000_000 }), limit, limit, (designTenths, minus, plus) => {
        const low = (designTenths * (100 - minus)) / 1000;
        const high = (designTenths * (100 + plus)) / 1000;
        expect(designVerdict(low, designTenths / 10, minus, plus)).toBe("within");
        expect(designVerdict(high, designTenths / 10, minus, plus)).toBe("within");
      }),
    );
  });

  it("passes a limit that binary arithmetic misses", () => {
    expect((165 / 150) * 100).toBeGreaterThan(110);
    expect(designVerdict(165, 150, 5, 10)).toBe("within");
    expect(designVerdict(0.1 + 0.2, 0.3, 0, 0)).toBe("within");
  });

  it("fails what lies a millionth of a percent beyond", () => {
    expect(designVerdict(165 * (1 + 1e-8), 150, 5, 10)).toBe("high");
    expect(designVerdict(142.5 * (1 - 1e-8), 150, 5, 10)).toBe("low");
  });

  it("is one of three, in the order of the measured airflow", () => {
    const order = { low: 0, within: 1, high: 2 };
    fc.assert(
      fc.property(signed, signed, positive, limit, limit, (one, other, design, minus, plus) => {
        const [less, more] = one < other ? [one, other] : [other, one];
        expect(order[designVerdict(less, design, minus, plus)]).toBeLessThanOrEqual(
          order[designVerdict(more, design, minus, plus)],
        );
      }),
    );
  });

  it("takes minus and plus apart", () => {
    expect(designVerdict(108, 100, 5, 10)).toBe("within");
    expect(designVerdict(108, 100, 10, 5)).toBe("high");
    expect(designVerdict(92, 100, 5, 10)).toBe("low");
    expect(designVerdict(92, 100, 10, 5)).toBe("within");
  });

  it("with minus 100 passes no air at all, but no air that runs the wrong way", () => {
    expect(designVerdict(0, 100, 100, 0)).toBe("within");
    expect(designVerdict(-0.01, 100, 100, 0)).toBe("low");
  });

  it("refuses limits that make no band", () => {
    for (const minus of [-1, 100.1, ...NOT_NUMBERS]) {
      expectRefusal(() => designVerdict(100, 100, minus, 10), "minusPercent", "from 0 to 100", minus);
    }
    for (const plus of [-1, ...NOT_NUMBERS]) {
      expectRefusal(() => designVerdict(100, 100, 5, plus), "plusPercent", "0 or more", plus);
    }
  });
});
