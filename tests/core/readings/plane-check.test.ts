import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  farOffReadings,
  planeCheckByPressures,
  planeCheckByVelocities,
  velocityFromPressure,
} from "../../../src/core/index.js";
import { expectRefusal } from "../numbers.js";

describe("the check of a traverse plane", () => {
  it("passes an even profile", () => {
    expect(planeCheckByVelocities([300, 450, 300, 450, 600, 450, 300, 450, 300])).toEqual({
      suitable: true,
      faults: [],
      readingCount: 9,
      negativeCount: 0,
      aboveLimitCount: 9,
      aboveLimitPercent: 100,
      limit: 600 * Math.sqrt(0.1),
    });
  });

  it("asks for more than three quarters: 3 of 4 fail, 4 of 5 pass", () => {
    expect(planeCheckByPressures([1, 1, 1, 0.05]).suitable).toBe(false);
    expect(planeCheckByPressures([1, 1, 1, 1, 0.05]).suitable).toBe(true);
  });

  it("does not count a reading that lies at the limit on paper", () => {
    for (const largest of [0.1, 0.3, 0.7, 1.1]) {
      const tenth = Number((largest / 10).toFixed(2));
      expect(planeCheckByPressures([largest, tenth]).aboveLimitCount).toBe(1);
      expect(planeCheckByPressures([largest, tenth + 1e-6]).aboveLimitCount).toBe(2);
    }
  });

  it("says of the same air the same by pressures and by velocities", () => {
    // Numbers at the far end of the binary range lose their digits.
    const pressure = fc.double({ min: 0, max: 1, noNaN: true }).map((value) => (value < 1e-9 ? 0 : value));
    const pressures = fc.array(pressure, { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(pressures, (all) => {
        const limit = Math.max(...all) / 10;
        fc.pre(all.every((pressure) => Math.abs(pressure - limit) > 1e-9 * limit || pressure === 0));
        const byPressures = planeCheckByPressures(all);
        const byVelocities = planeCheckByVelocities(all.map((pressure) => velocityFromPressure(pressure, 0.075)));
        expect(byVelocities.aboveLimitCount).toBe(byPressures.aboveLimitCount);
        expect(byVelocities.suitable).toBe(byPressures.suitable);
      }),
    );
  });

  it("fails a plane with one negative reading, however many good ones there are", () => {
    const check = planeCheckByVelocities([...new Array<number>(50).fill(400), -5]);
    expect(check.faults).toEqual(["negative readings"]);
    expect(check.negativeCount).toBe(1);
    expect(check.suitable).toBe(false);
  });

  it("names both faults where both are there", () => {
    expect(planeCheckByPressures([1, -0.1, 0, 0.01]).faults).toEqual([
      "negative readings",
      "too few readings above the limit",
    ]);
  });

  it("fails a plane without any air, and one where all air runs backwards", () => {
    expect(planeCheckByVelocities([0, 0, 0])).toMatchObject({
      faults: ["too few readings above the limit"],
      aboveLimitCount: 0,
      negativeCount: 0,
    });
    expect(planeCheckByVelocities([-10, -20])).toMatchObject({ aboveLimitCount: 0, negativeCount: 2, suitable: false });
  });

  it("refuses no readings and a reading that is no number", () => {
    expectRefusal(() => planeCheckByPressures([]), "pressuresInWg", "at least one value");
    expectRefusal(() => planeCheckByVelocities([]), "velocitiesFpm", "at least one value");
    expectRefusal(() => planeCheckByPressures([1, Number.NaN]), "pressuresInWg, reading 2,", "a finite number");
    expectRefusal(() => planeCheckByVelocities([Number.NaN]), "velocitiesFpm, reading 1,", "a finite number");
  });
});

describe("readings that lie far off", () => {
  it("are a slipped decimal point, up or down", () => {
    expect(farOffReadings([400, 4000, 410, 390, 40])).toEqual([1, 4]);
  });

  it("are not the walls of a duct profile", () => {
    expect(farOffReadings([300, 450, 300, 450, 600, 450, 300, 450, 300])).toEqual([]);
  });

  it("begin beyond three times the median and below a third of it", () => {
    expect(farOffReadings([300, 300, 300, 900, 100])).toEqual([]);
    expect(farOffReadings([300, 300, 300, 901, 99])).toEqual([3, 4]);
  });

  it("take the middle between two middle readings", () => {
    expect(farOffReadings([200, 400, 600, 901])).toEqual([]);
    expect(farOffReadings([100, 200, 400, 901])).toEqual([3]);
    expect(farOffReadings([200, 400, 900, 99])).toEqual([3]);
  });

  it("are not looked for where the air stands still or runs backwards", () => {
    expect(farOffReadings([0, 0, 0, 500])).toEqual([]);
    expect(farOffReadings([-400, -4000])).toEqual([]);
  });

  it("leave the list as it was", () => {
    const readings = Object.freeze([500, 100, 400]);
    expect(farOffReadings(readings)).toEqual([1]);
  });

  it("refuse an empty list and what is no number", () => {
    expectRefusal(() => farOffReadings([]), "velocitiesFpm", "at least one value");
    expectRefusal(() => farOffReadings([Number.NaN]), "velocitiesFpm, reading 1,", "a finite number");
  });
});
