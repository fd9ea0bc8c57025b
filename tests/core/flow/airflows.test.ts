import fc from "fast-check";
import { evaluate } from "mathjs";
import { describe, expect, it } from "vitest";
import { airflow, faceAirflow, targetVelocity } from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, positive, ratio, signed } from "../numbers.js";

describe("an airflow", () => {
  it("agrees with mathjs, which carries the units", () => {
    expectSame(airflow(400, 2.5), evaluate("400 ft/minute * 2.5 ft^2").toNumber("ft^3/minute"));
  });

  it("has the sign of the velocity", () => {
    expect(airflow(-400, 2.5)).toBe(-1000);
    expect(faceAirflow(-400, 0.5, 0.75)).toBe(-150);
    expect(airflow(0, 2.5)).toBe(0);
  });

  it("of a face is the one of its free area", () => {
    fc.assert(
      fc.property(signed, positive, ratio, (velocity, area, factor) => {
        expectSame(faceAirflow(velocity, area, factor), airflow(velocity, area * factor));
      }),
    );
  });

  it("comes out as designed at the target velocity", () => {
    fc.assert(
      fc.property(positive, positive, ratio, (design, area, factor) => {
        expectSame(faceAirflow(targetVelocity(design, area, factor), area, factor), design);
      }),
    );
  });

  it("needs a velocity that is a number", () => {
    for (const value of NOT_NUMBERS) {
      expectRefusal(() => airflow(value, 1), "velocityFpm", "a finite number", value);
      expectRefusal(() => faceAirflow(value, 1, 1), "velocityFpm", "a finite number", value);
    }
  });

  it("needs an area and a factor", () => {
    for (const area of [0, -1, ...NOT_NUMBERS]) {
      expectRefusal(() => airflow(400, area), "freeAreaFt2", "above 0", area);
      expectRefusal(() => faceAirflow(400, area, 0.75), "areaFt2", "above 0", area);
      expectRefusal(() => targetVelocity(100, area, 0.75), "areaFt2", "above 0", area);
    }
    expectRefusal(() => faceAirflow(400, 1, 75), "freeAreaRatio", "above 0 and at most 1", 75);
    expectRefusal(() => targetVelocity(100, 1, 0), "freeAreaRatio", "above 0 and at most 1", 0);
  });

  it("has no target velocity without a design", () => {
    for (const design of [0, -100, ...NOT_NUMBERS]) {
      expectRefusal(() => targetVelocity(design, 1, 1), "designCfm", "above 0", design);
    }
  });

  it("is refused when it is too large to hold", () => {
    expectRefusal(() => airflow(1e200, 1e200), "airflow", "small enough to calculate with");
    expectRefusal(() => targetVelocity(1e300, 1e-300, 1), "velocity", "small enough to calculate with");
  });
});
