import fc from "fast-check";
import { evaluate } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  airflow,
  ductAirflow,
  ductAirflowFromPressures,
  faceAirflow,
  targetVelocity,
  velocityFromPressure,
} from "../../../src/core/index.js";
import { expectRefusal, expectSame, NOT_NUMBERS, positive, ratio, signed } from "../numbers.js";

describe("an airflow", () => {
  it("agrees with mathjs, which carries the units", () => {
    expectSame(airflow(400, 2.5), evaluate("400 ft/minute * 2.5 ft^2").toNumber("ft^3/minute"));
  });

  it("has the sign of the velocity", () => {
    expect(airflow(-400, 2.5)).toBe(-1000);
    expect(faceAirflow([-400], 0.5, 0.75)).toBe(-150);
    expect(airflow(0, 2.5)).toBe(0);
  });

  it("of a face is the one of its free area", () => {
    fc.assert(
      fc.property(fc.array(signed, { minLength: 1 }), positive, ratio, (velocities, area, factor) => {
        expectSame(faceAirflow(velocities, area, factor), ductAirflow(velocities, area * factor));
      }),
    );
  });

  it("from pressures is the one of their velocities", () => {
    const each = [0.02, 0.04, 0.09].map((pressure) => velocityFromPressure(pressure, 0.07));
    expectSame(ductAirflowFromPressures([0.02, 0.04, 0.09], 2, 0.07), ductAirflow(each, 2));
  });

  it("comes out as designed at the target velocity", () => {
    fc.assert(
      fc.property(positive, positive, ratio, (design, area, factor) => {
        expectSame(faceAirflow([targetVelocity(design, area, factor)], area, factor), design);
      }),
    );
  });

  it("needs readings that are numbers", () => {
    for (const value of NOT_NUMBERS) {
      expectRefusal(() => airflow(value, 1), "velocityFpm", "a finite number", value);
      expectRefusal(() => ductAirflow([value], 1), "velocitiesFpm, reading 1,", "a finite number", value);
      expectRefusal(() => faceAirflow([value], 1, 1), "velocitiesFpm, reading 1,", "a finite number", value);
      expectRefusal(
        () => ductAirflowFromPressures([value], 1, 0.075),
        "pressuresInWg, reading 1,",
        "a finite number",
        value,
      );
    }
    expectRefusal(() => ductAirflow([], 1), "velocitiesFpm", "at least one value");
  });

  it("needs an area, a factor and a density", () => {
    for (const area of [0, -1, ...NOT_NUMBERS]) {
      expectRefusal(() => airflow(400, area), "freeAreaFt2", "above 0", area);
      expectRefusal(() => faceAirflow([400], area, 0.75), "areaFt2", "above 0", area);
      expectRefusal(() => targetVelocity(100, area, 0.75), "areaFt2", "above 0", area);
    }
    expectRefusal(() => faceAirflow([400], 1, 75), "freeAreaRatio", "above 0 and at most 1", 75);
    expectRefusal(() => targetVelocity(100, 1, 0), "freeAreaRatio", "above 0 and at most 1", 0);
    expectRefusal(() => ductAirflowFromPressures([0.1], 1, 0), "densityLbFt3", "above 0", 0);
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
