import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  combineUncertainties,
  effectiveDegreesOfFreedom,
  instrumentLimits,
  type LimitShape,
  rectangleAreaUncertainty,
  repeatUncertainty,
  resolutionUncertainty,
  roundAreaUncertainty,
  sharedUncertainty,
  standardFromLimits,
} from "../../../src/core/index.js";
import { coreFunctions } from "../core-functions.js";

const size = fc.double({ min: 0.01, max: 1e4, noNaN: true });

describe("a ± given as limits", () => {
  it("counts most where a value swings between them and least where the middle is likelier", () => {
    fc.assert(
      fc.property(size, (halfWidth) => {
        const [swinging, even, peaked] = (["u-shaped", "rectangular", "triangular"] as const).map((shape) =>
          standardFromLimits(halfWidth, shape),
        );
        expect(swinging).toBeGreaterThan(even ?? Number.NaN);
        expect(even).toBeGreaterThan(peaked ?? Number.NaN);
      }),
    );
  });

  it("may be 0, and is refused when negative, not a number or of a shape nobody knows", () => {
    expect(standardFromLimits(0, "triangular")).toBe(0);
    expect(() => standardFromLimits(-1, "triangular")).toThrow("halfWidth must be 0 or more, but is -1");
    expect(() => standardFromLimits(Number.NaN, "triangular")).toThrow("halfWidth");
    expect(() => standardFromLimits(1, "toString" as LimitShape)).toThrow('shape must be "rectangular"');
  });
});

describe("an instrument specification ±(x % of reading + y)", () => {
  it("weighs more, in percent, the lower the velocity", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 5000, noNaN: true }),
        fc.double({ min: 1.01, max: 4, noNaN: true }),
        (velocityFpm, ratio) => {
          const share = (readingFpm: number) => instrumentLimits(readingFpm, 3, 20) / readingFpm;
          expect(share(velocityFpm)).toBeGreaterThan(share(velocityFpm * ratio));
        },
      ),
    );
  });

  it("refuses a reading of 0, whose percent would be infinite, and negative parts", () => {
    expect(() => instrumentLimits(0, 3, 20)).toThrow("readingFpm must be above 0, but is 0");
    expect(() => instrumentLimits(400, -3, 20)).toThrow("ofReadingPercent must be 0 or more");
    expect(() => instrumentLimits(400, 3, -20)).toThrow("fixedFpm must be 0 or more");
  });
});

describe("a dimension tolerance", () => {
  it("weighs the same whichever side is called the width", () => {
    fc.assert(
      fc.property(size, size, (a, b) => {
        const ratio = rectangleAreaUncertainty(a, b, 0.0625) / rectangleAreaUncertainty(b, a, 0.0625);
        expect(ratio).toBeCloseTo(1, 12);
      }),
    );
  });

  it("weighs √2 more on a circle than on a square of the same measure: its two radii are wrong together", () => {
    fc.assert(
      fc.property(size, (side) => {
        const ratio = roundAreaUncertainty(side, 0.1) / rectangleAreaUncertainty(side, side, 0.1);
        expect(ratio).toBeCloseTo(Math.SQRT2, 10);
      }),
    );
  });

  it("refuses an opening without size and a negative tolerance", () => {
    expect(() => rectangleAreaUncertainty(0, 6, 0.1)).toThrow("widthIn must be above 0");
    expect(() => rectangleAreaUncertainty(12, 0, 0.1)).toThrow("heightIn must be above 0");
    expect(() => rectangleAreaUncertainty(12, 6, -0.1)).toThrow("toleranceIn must be 0 or more");
    expect(() => roundAreaUncertainty(0, 0.1)).toThrow("diameterIn must be above 0");
    expect(() => roundAreaUncertainty(8, -0.1)).toThrow("toleranceIn must be 0 or more");
  });
});

describe("repeated sweeps", () => {
  it("give their mean, the uncertainty of the mean and one degree of freedom fewer than repeats", () => {
    // s of 400, 410, 390 is 10; 10 / √3 of 400 (by hand)
    const repeat = repeatUncertainty([400, 410, 390], 0);
    expect(repeat.mean).toBeCloseTo(400, 12);
    expect(repeat.standardPercent).toBeCloseTo((100 * 10) / Math.sqrt(3) / 400, 12);
    expect(repeat.degreesOfFreedom).toBe(2);
  });

  it("give the same percent in any unit, and 0 where they agree", () => {
    fc.assert(
      fc.property(fc.array(size, { minLength: 2, maxLength: 8 }), size, (repeats, scale) => {
        const other = repeatUncertainty(
          repeats.map((repeated) => repeated * scale),
          0,
        );
        expect(other.standardPercent).toBeCloseTo(repeatUncertainty(repeats, 0).standardPercent, 6);
      }),
    );
    expect(repeatUncertainty([412, 412], 0).standardPercent).toBe(0);
  });

  it("are known no better than the display allows: its step / √12 (GUM F.2.2.1)", () => {
    expect(resolutionUncertainty(1)).toBeCloseTo(0.29, 2);
    expect(repeatUncertainty([400, 400, 400], 10).standardPercent).toBeCloseTo((100 * 10) / Math.sqrt(12) / 400, 12);
    // Where the sweeps scatter by more, the step changes nothing.
    expect(repeatUncertainty([400, 410, 390], 10)).toEqual(repeatUncertainty([400, 410, 390], 0));
    expect(() => repeatUncertainty([400, 410], -1)).toThrow("resolution must be 0 or more");
    expect(() => resolutionUncertainty(Number.NaN)).toThrow("resolution must be 0 or more");
  });

  it("are refused when there is only one, or when one is 0 or missing", () => {
    expect(() => repeatUncertainty([400], 0)).toThrow("repeatedMeans must be at least two whole repeats, but is 1");
    expect(() => repeatUncertainty([], 0)).toThrow("at least two whole repeats");
    expect(() => repeatUncertainty([400, 0], 0)).toThrow("repeatedMeans must be above 0");
    expect(() => repeatUncertainty([400, Number.NaN], 0)).toThrow("repeatedMeans must be above 0");
  });
});

describe("the spread of readings over one profile", () => {
  // What it may be used for: the part for reading at a few points only, and the root of pressures. Never a repeat.
  const named = ["gaugeLimits", "pointsUncertainty", "sampleSpread"];

  it("is taken for a repeat by no function: none of the others takes the readings of a traverse", () => {
    const ours = coreFunctions().filter((one) => one.file.includes("core/uncertainty/") && !named.includes(one.name));
    expect(ours.length).toBeGreaterThan(10);
    for (const { name, parameters } of ours) {
      for (const parameter of parameters) {
        expect(parameter.name, name).not.toMatch(/readings|velocities|pressures|points|spread|spatial/i);
      }
    }
  });
});

describe("independent contributions", () => {
  it("combine to no less than the largest and no more than their sum", () => {
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 10 }), (contributions) => {
        const combined = combineUncertainties(contributions);
        expect(combined).toBeGreaterThanOrEqual(Math.max(...contributions) * (1 - 1e-12));
        expect(combined).toBeLessThanOrEqual(contributions.reduce((sum, one) => sum + one, 0) * (1 + 1e-12));
      }),
    );
  });

  it("are refused when there is none, one is negative, or the sum overflows", () => {
    expect(() => combineUncertainties([])).toThrow("contributions must be at least one value");
    expect(() => combineUncertainties([1, -1])).toThrow("contributions must be 0 or more");
    expect(() => combineUncertainties([Number.MAX_VALUE, Number.MAX_VALUE])).toThrow("combineUncertainties");
  });
});

describe("effective degrees of freedom", () => {
  it("lie between the fewest of a part and the sum of all", () => {
    const parts = fc.array(fc.record({ standard: size, degreesOfFreedom: fc.integer({ min: 1, max: 50 }) }), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(parts, (contributions) => {
        const effective = effectiveDegreesOfFreedom(contributions);
        const freedoms = contributions.map((part) => part.degreesOfFreedom);
        expect(effective).toBeGreaterThanOrEqual(Math.min(...freedoms) * (1 - 1e-12));
        expect(effective).toBeLessThanOrEqual(freedoms.reduce((sum, one) => sum + one, 0) * (1 + 1e-12));
      }),
    );
  });

  it("are without end where nothing was found by repeating, or nothing is in doubt", () => {
    expect(effectiveDegreesOfFreedom([{ standard: 3, degreesOfFreedom: Number.POSITIVE_INFINITY }])).toBe(
      Number.POSITIVE_INFINITY,
    );
    expect(effectiveDegreesOfFreedom([{ standard: 0, degreesOfFreedom: 2 }])).toBe(Number.POSITIVE_INFINITY);
  });

  it("refuse an empty list, a negative part and a part without a degree of freedom", () => {
    expect(() => effectiveDegreesOfFreedom([])).toThrow("contributions must be at least one value");
    expect(() => effectiveDegreesOfFreedom([{ standard: -1, degreesOfFreedom: 2 }])).toThrow("standard must be 0");
    expect(() => effectiveDegreesOfFreedom([{ standard: 1, degreesOfFreedom: 0 }])).toThrow("degreesOfFreedom must be");
  });
});

describe("a sum whose parts err alike", () => {
  it("is as uncertain as its parts together: ten resistors of 0.1 ohm each, compared with one standard, to 1 ohm", () => {
    // JCGM 100:2008 (GUM), 5.2.2, example (from memory): 1 ohm, and 0.32 ohm if they were wrongly taken as independent.
    const tenResistors = Array.from({ length: 10 }, () => 0.1);
    expect(sharedUncertainty(tenResistors)).toBeCloseTo(1, 12);
    expect(combineUncertainties(tenResistors)).toBeCloseTo(0.32, 2);
  });

  it("is never better known than one whose parts err for themselves", () => {
    fc.assert(
      fc.property(fc.array(size, { minLength: 1, maxLength: 20 }), (parts) => {
        expect(sharedUncertainty(parts)).toBeGreaterThanOrEqual(combineUncertainties(parts) * (1 - 1e-12));
      }),
    );
  });

  it("refuses no part and a negative one", () => {
    expect(() => sharedUncertainty([])).toThrow("contributions must be at least one value");
    expect(() => sharedUncertainty([1, -1])).toThrow("contributions must be 0 or more, but is -1");
  });
});
