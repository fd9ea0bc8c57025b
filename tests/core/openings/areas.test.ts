import fc from "fast-check";
import { evaluate } from "mathjs";
import { describe, expect, it } from "vitest";
import { flatOvalArea, rectangleArea, roundArea } from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, positive } from "../numbers.js";

const scale = fc.double({ min: 0.01, max: 100, noNaN: true });
const oval = fc.tuple(positive, positive).map(([one, other]) => [Math.max(one, other), Math.min(one, other)] as const);

describe("areas", () => {
  it("agree with mathjs, which carries the units", () => {
    expectSame(rectangleArea(14, 6), evaluate("14 in * 6 in").toNumber("ft^2"));
    expectSame(roundArea(15), evaluate("pi * (15 in)^2 / 4").toNumber("ft^2"));
    expectSame(flatOvalArea(24, 12), evaluate("pi * (12 in)^2 / 4 + 12 in * (24 in - 12 in)").toNumber("ft^2"));
  });

  it("grow with the square of the size", () => {
    fc.assert(
      fc.property(oval, scale, ([a, b], s) => {
        expectSame(rectangleArea(s * a, s * b), s * s * rectangleArea(a, b));
        expectSame(roundArea(s * a), s * s * roundArea(a));
        expectSame(flatOvalArea(s * a, s * b), s * s * flatOvalArea(a, b), 1e-10);
      }),
    );
  });

  it("are the same whichever side comes first", () => {
    fc.assert(
      fc.property(positive, positive, (a, b) => {
        expect(rectangleArea(a, b)).toBe(rectangleArea(b, a));
      }),
    );
  });

  it("of a flat oval lie between the circle of the minor axis and the rectangle around it", () => {
    fc.assert(
      fc.property(oval, ([major, minor]) => {
        expect(flatOvalArea(major, minor)).toBeGreaterThanOrEqual(roundArea(minor) * (1 - 1e-12));
        expect(flatOvalArea(major, minor)).toBeLessThanOrEqual(rectangleArea(major, minor));
      }),
    );
  });
});

describe("an opening that cannot be", () => {
  it.each([0, -1, ...NOT_NUMBERS])("is refused: a size of %d", (size) => {
    expectRefusal(() => rectangleArea(size, 6), "widthIn", "above 0", size);
    expectRefusal(() => rectangleArea(12, size), "heightIn", "above 0", size);
    expectRefusal(() => roundArea(size), "diameterIn", "above 0", size);
    expectRefusal(() => flatOvalArea(24, size), "minorIn", "above 0", size);
    expectRefusal(() => flatOvalArea(size, 12), "majorIn", "at least the minor axis", size);
  });

  it("is refused: a flat oval whose major axis is the smaller one", () => {
    expectRefusal(() => flatOvalArea(11.9, 12), "majorIn", "at least the minor axis", 11.9);
    expect(flatOvalArea(12, 12)).toBeGreaterThan(0);
  });

  it("is refused: one too large to calculate with", () => {
    const huge = Number.MAX_VALUE;
    expectRefusal(() => rectangleArea(huge, 2), "widthIn times heightIn", "small enough to calculate with");
    expectRefusal(() => roundArea(huge), "diameterIn squared", "small enough to calculate with");
    expectRefusal(() => flatOvalArea(huge, 2), "majorIn times minorIn", "small enough to calculate with");
    expectRefusal(() => flatOvalArea(huge, 0.5), "majorIn", "small enough to calculate with");
  });
});
