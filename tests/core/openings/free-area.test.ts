import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factorFromEffectiveArea, freeArea, freeAreaOnBasis } from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, positive, ratio } from "../numbers.js";

describe("the free area", () => {
  it("leaves a plain opening whole and never makes an opening larger", () => {
    fc.assert(
      fc.property(positive, ratio, (area, factor) => {
        expect(freeArea(area, 1)).toBe(area);
        expect(freeArea(area, factor)).toBeLessThanOrEqual(area);
      }),
    );
  });

  it("gives back the effective area from which a factor was made", () => {
    fc.assert(
      fc.property(positive, ratio, (area, factor) => {
        const effective = freeArea(area, factor);
        expectSame(factorFromEffectiveArea(effective, area), factor);
        expectSame(freeArea(area, factorFromEffectiveArea(effective, area)), effective);
      }),
    );
  });

  it.each([0, -0.1, 1.0001, 75, ...NOT_NUMBERS])("refuses a factor of %d", (factor) => {
    expectRefusal(() => freeArea(1, factor), "freeAreaRatio", "above 0 and at most 1", factor);
    expectRefusal(() => freeAreaOnBasis(1, factor, null), "freeAreaRatio", "above 0 and at most 1", factor);
  });

  it.each([0, -1, ...NOT_NUMBERS])("refuses an area of %d", (area) => {
    expectRefusal(() => freeArea(area, 0.75), "areaFt2", "above 0", area);
    expectRefusal(() => factorFromEffectiveArea(0.3, area), "areaFt2", "above 0", area);
    expectRefusal(
      () => factorFromEffectiveArea(area, 0.5),
      "effectiveAreaFt2",
      "above 0 and at most areaFt2, 0.5",
      area,
    );
  });

  it("takes an effective area as large as the opening and refuses a larger one", () => {
    expect(factorFromEffectiveArea(0.5, 0.5)).toBe(1);
    expectRefusal(
      () => factorFromEffectiveArea(0.51, 0.5),
      "effectiveAreaFt2",
      "above 0 and at most areaFt2, 0.5",
      0.51,
    );
  });
});

describe("the basis of a free area", () => {
  it("is the published factor where one is given", () => {
    expect(freeAreaOnBasis(0.5, 0.8, null)).toEqual({
      freeAreaFt2: 0.4,
      freeAreaRatio: 0.8,
      basis: "published factor",
    });
  });

  it("is a published factor of 0.75 too, which is not an assumed one", () => {
    expect(freeAreaOnBasis(1, 0.75, null).basis).toBe("published factor");
    expect(freeAreaOnBasis(1, null, null).basis).toBe("assumed factor");
  });

  it("is the effective area itself, with the factor that it amounts to", () => {
    expect(freeAreaOnBasis(0.5, null, 0.36)).toEqual({
      freeAreaFt2: 0.36,
      freeAreaRatio: 0.72,
      basis: "published effective area",
    });
  });

  it("refuses an effective area together with a factor: 108 cfm would come out where 144 cfm flow", () => {
    for (const factor of [0.75, 1]) {
      expectRefusal(
        () => freeAreaOnBasis(0.5, factor, 0.36),
        "freeAreaRatio",
        "left out where an effective area is given, because that area is already the free one",
        factor,
      );
    }
  });

  it("refuses an effective area that is none", () => {
    expectRefusal(() => freeAreaOnBasis(0.5, null, 0), "effectiveAreaFt2", "above 0 and at most areaFt2, 0.5", 0);
    expectRefusal(() => freeAreaOnBasis(0.5, null, 0.6), "effectiveAreaFt2", "above 0 and at most areaFt2, 0.5", 0.6);
  });
});
