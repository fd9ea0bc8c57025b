import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leakageAirflow, leakagePercent, transferAirflow } from "../../../src/core/index.js";

const flow = fc.double({ min: 0, max: 1e5, noNaN: true });

describe("transfer air", () => {
  it("leaves a room that gets more than is taken, and enters one that gets less", () => {
    expect(transferAirflow(150, 100, 20)).toBe(30);
    expect(transferAirflow(100, 150, 0)).toBe(-50);
    expect(transferAirflow(0, 0, 50)).toBe(-50);
    expect(transferAirflow(120, 100, 20)).toBe(0);
  });

  it("adds up over the rooms to that of the whole floor", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(flow, flow, flow), { minLength: 1, maxLength: 20 }), (rooms) => {
        const sum = (index: 0 | 1 | 2) => rooms.reduce((total, room) => total + room[index], 0);
        const rooms1 = rooms.reduce((total, room) => total + transferAirflow(...room), 0);
        expect(Math.abs(rooms1 - transferAirflow(sum(0), sum(1), sum(2)))).toBeLessThan(1e-6);
      }),
    );
  });

  it("refuses a negative airflow and names it", () => {
    expect(() => transferAirflow(-1, 0, 0)).toThrow("supplyFlowCfm must be 0 or more, but is -1");
    expect(() => transferAirflow(0, -1, 0)).toThrow("returnFlowCfm must be 0 or more");
    expect(() => transferAirflow(0, 0, Number.NaN)).toThrow("exhaustFlowCfm must be 0 or more");
  });
});

describe("leakage between fan and outlets", () => {
  it("is what the outlets lack, in cfm and in percent of the fan", () => {
    expect(leakageAirflow(1200, [400, 380, 330])).toBe(90);
    expect(leakagePercent(1200, [400, 380, 330])).toBe(7.5);
    expect(leakagePercent(1200, [0])).toBe(100);
  });

  it("falls below 0 where the two measurements disagree", () => {
    expect(leakageAirflow(1000, [600, 450])).toBe(-50);
    expect(leakagePercent(1000, [600, 450])).toBe(-5);
  });

  it("counts an outlet that runs backwards against the others", () => {
    expect(leakageAirflow(1000, [900, -100])).toBe(200);
  });

  it("refuses a fan of 0 for the percentage, no outlets, and an outlet that is not a number", () => {
    expect(() => leakagePercent(0, [1])).toThrow("fanFlowCfm must be above 0");
    expect(() => leakageAirflow(-1, [1])).toThrow("fanFlowCfm must be 0 or more");
    expect(() => leakageAirflow(1, [])).toThrow("outletFlowsCfm must be at least one value");
    expect(() => leakageAirflow(1, [1, Number.NaN])).toThrow("outletFlowsCfm must be a finite number, but is NaN");
  });
});
