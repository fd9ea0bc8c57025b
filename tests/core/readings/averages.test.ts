import fc from "fast-check";
import { evaluate } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  averageFromSum,
  averageVelocity,
  averageVelocityFromPressures,
  spread,
  sweepAverage,
  velocityFromPressure,
} from "../../../src/core/index.js";
import { density, expectRefusal, expectSame, NOT_NUMBERS, positive, signed } from "../numbers.js";

const readings = fc.array(signed, { minLength: 1, maxLength: 60 });
const pressures = fc.array(fc.double({ min: 1e-4, max: 5, noNaN: true }), { minLength: 1, maxLength: 60 });
const sweeps = fc.array(fc.tuple(signed, fc.double({ min: 0.1, max: 600, noNaN: true })), { minLength: 1 });

describe("the mean velocity", () => {
  it("lies between the lowest and the highest reading", () => {
    fc.assert(
      fc.property(readings, (velocities) => {
        const mean = averageVelocity(velocities);
        expect(mean).toBeGreaterThanOrEqual(Math.min(...velocities) - 1e-9);
        expect(mean).toBeLessThanOrEqual(Math.max(...velocities) + 1e-9);
      }),
    );
  });

  it("does not ask in which order the readings were taken", () => {
    fc.assert(
      fc.property(readings, (velocities) => {
        expect(averageVelocity(velocities.toReversed())).toBeCloseTo(averageVelocity(velocities), 7);
      }),
    );
  });

  it("keeps the sign of a reading that runs backwards", () => {
    expect(averageVelocity([500, -100, 200])).toBe(200);
    expect(averageVelocity([-300])).toBe(-300);
  });

  it("counts a dead spot", () => {
    expect(averageVelocity([400, 0])).toBe(200);
  });

  it("leaves its argument as it was", () => {
    const velocities = Object.freeze([3, 1, 2]);
    expect(averageVelocity(velocities)).toBe(2);
  });

  it("is the same to the last digit from a sum and a number of readings", () => {
    fc.assert(
      fc.property(readings, (velocities) => {
        const sumFpm = velocities.reduce((sum, velocity) => sum + velocity, 0);
        expect(averageFromSum(sumFpm, velocities.length)).toBe(averageVelocity(velocities));
      }),
    );
  });

  it.each([0, -1, 2.5, Number.NaN])("refuses %d as a number of readings", (count) => {
    expectRefusal(() => averageFromSum(400, count), "readingCount", "a whole number of 1 or more", count);
  });

  it("refuses no readings at all", () => {
    expectRefusal(() => averageVelocity([]), "velocitiesFpm", "at least one value", "none");
  });

  it.each(NOT_NUMBERS)("refuses %d among the readings and says which one it is", (value) => {
    expectRefusal(() => averageVelocity([400, value, 410]), "velocitiesFpm, reading 2,", "a finite number", value);
  });

  it("refuses readings whose sum is too large to hold", () => {
    expectRefusal(
      () => averageVelocity([Number.MAX_VALUE, Number.MAX_VALUE]),
      "the sum of velocitiesFpm",
      "small enough to calculate with",
    );
  });
});

describe("velocity and velocity pressure", () => {
  it("are the law of Bernoulli that mathjs evaluates with units", () => {
    const law = "sqrt(2 * 0.25 * 249.08891 Pa / (0.075 lbm / ft^3))";
    expectSame(velocityFromPressure(0.25, 0.075), evaluate(law).toNumber("ft/minute"));
  });

  it("double the velocity for four times the pressure, and halve it in air four times as dense", () => {
    fc.assert(
      fc.property(positive, density, (pressure, rho) => {
        expectSame(velocityFromPressure(4 * pressure, rho), 2 * velocityFromPressure(pressure, rho));
        expectSame(velocityFromPressure(pressure, 4 * rho), velocityFromPressure(pressure, rho) / 2);
      }),
    );
  });

  it("stand still together", () => {
    expect(velocityFromPressure(0, 0.075)).toBe(0);
  });

  it("refuse a single negative reading", () => {
    expectRefusal(() => velocityFromPressure(-0.01, 0.075), "pressureInWg", "0 or more", -0.01);
  });

  it.each([0, -0.075, ...NOT_NUMBERS])("refuse air of density %d", (rho) => {
    expectRefusal(() => velocityFromPressure(0.1, rho), "densityLbFt3", "above 0", rho);
    expectRefusal(() => averageVelocityFromPressures([0.1], rho), "densityLbFt3", "above 0", rho);
  });

  it("refuse what would overflow", () => {
    const tooLarge = "small enough to calculate with";
    expectRefusal(() => velocityFromPressure(1e300, 1e-300), "velocity", tooLarge);
    expectRefusal(() => averageVelocityFromPressures([1e300], 1e-300), "velocity", tooLarge);
  });
});

describe("the mean velocity from pressures", () => {
  it("is the mean of the velocities of the single pressures", () => {
    fc.assert(
      fc.property(pressures, density, (all, rho) => {
        const each = all.map((pressure) => velocityFromPressure(pressure, rho));
        expectSame(averageVelocityFromPressures(all, rho), averageVelocity(each));
      }),
    );
  });

  it("never exceeds the velocity of the mean pressure, which is too high by √(1 + CV²) exactly", () => {
    fc.assert(
      fc.property(pressures, density, (all, rho) => {
        const right = averageVelocityFromPressures(all, rho);
        const meanPressure = all.reduce((sum, pressure) => sum + pressure, 0) / all.length;
        const variation = spread(all.map((pressure) => velocityFromPressure(pressure, rho))) / 100;
        expectSame(velocityFromPressure(meanPressure, rho), right * Math.sqrt(1 + variation ** 2), 1e-10);
      }),
    );
  });

  it("takes a negative pressure as 0 and leaves it in the count", () => {
    expectSame(averageVelocityFromPressures([0.1, -0.02], 0.075), velocityFromPressure(0.1, 0.075) / 2);
  });

  it("refuses an empty list and names a pressure that is no number", () => {
    expectRefusal(() => averageVelocityFromPressures([], 0.075), "pressuresInWg", "at least one value", "none");
    expectRefusal(
      () => averageVelocityFromPressures([Number.NaN], 0.075),
      "pressuresInWg, reading 1,",
      "a finite number",
    );
  });
});

describe("the mean of timed sweeps", () => {
  it("lies between the slowest and the fastest sweep", () => {
    fc.assert(
      fc.property(sweeps, (all) => {
        const velocities = all.map(([velocity]) => velocity);
        const mean = sweepAverage(
          velocities,
          all.map(([, seconds]) => seconds),
        );
        expect(mean).toBeGreaterThanOrEqual(Math.min(...velocities) - 1e-7);
        expect(mean).toBeLessThanOrEqual(Math.max(...velocities) + 1e-7);
      }),
    );
  });

  it("is the plain mean when all sweeps took equally long", () => {
    fc.assert(
      fc.property(readings, positive, (velocities, seconds) => {
        const mean = sweepAverage(
          velocities,
          velocities.map(() => seconds),
        );
        expect(mean).toBeCloseTo(averageVelocity(velocities), 6);
      }),
    );
  });

  it("refuses sweeps without their times and times without their sweeps", () => {
    expectRefusal(() => sweepAverage([400, 410], [30]), "timesSeconds", "as many as velocitiesFpm, 2", 1);
    expectRefusal(() => sweepAverage([400], [30, 30]), "timesSeconds", "as many as velocitiesFpm, 1", 2);
    expectRefusal(() => sweepAverage([], []), "velocitiesFpm", "at least one value");
  });

  it.each([0, -1, ...NOT_NUMBERS])("refuses a time of %d and says of which sweep", (seconds) => {
    expectRefusal(() => sweepAverage([400, 410], [30, seconds]), "timesSeconds, sweep 2,", "above 0", seconds);
  });

  it("refuses times whose sum is too large to hold", () => {
    expectRefusal(
      () => sweepAverage([2], [Number.MAX_VALUE]),
      "the average of the sweeps",
      "small enough to calculate with",
    );
  });
});

describe("the spread", () => {
  it("is 0 where all readings agree", () => {
    expect(spread([400, 400, 400])).toBe(0);
    expect(spread([400])).toBe(0);
  });

  it("does not change with the unit of the readings", () => {
    fc.assert(
      fc.property(fc.array(positive, { minLength: 1 }), positive, (velocities, factor) => {
        expect(spread(velocities.map((velocity) => velocity * factor))).toBeCloseTo(spread(velocities), 7);
      }),
    );
  });

  it("is over all points, not over one less: 300 and 500 spread by 25 %, not by 35 %", () => {
    expectSame(spread([300, 500]), 25);
  });

  it("refuses readings whose mean is not above 0, of which no part can be told", () => {
    expectRefusal(() => spread([100, -100]), "velocitiesFpm", "readings with an average above 0", "an average of 0");
    expectRefusal(() => spread([-100]), "velocitiesFpm", "readings with an average above 0", "an average of -100");
  });

  it("refuses a spread too large to hold", () => {
    expectRefusal(() => spread([1e200, -1e200, 1]), "spread", "small enough to calculate with");
  });
});
