import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type BalanceOutlet,
  balanceRatio,
  commonRatio,
  estimatedBranch,
  FRESH_READINGS,
  fanTarget,
  keyOutlet,
  matchWindow,
  nextSetting,
  workOrder,
} from "../../../src/core/index.js";
import { outlet } from "./outlet.js";

const limits = (minusPercent: number, plusPercent: number) => ({ minusPercent, plusPercent });

const four = [outlet("1", 100, 140), outlet("2", 150, 165), outlet("3", 120, 96), outlet("4", 80, 72)];

const arbitraryOutlets = fc
  .array(
    fc.record({
      designFlow: fc.integer({ min: 20, max: 600 }),
      measuredFlow: fc.double({ min: 1, max: 900, noNaN: true }),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((list) => list.map(({ designFlow, measuredFlow }, i) => outlet(`${i}`, designFlow, measuredFlow)));

describe("the ratio of an outlet", () => {
  it("is what it gets of its design airflow, negative where the air runs backwards", () => {
    expect(balanceRatio(96, 120)).toBe(0.8);
    expect(balanceRatio(0, 120)).toBe(0);
    expect(balanceRatio(-12, 120)).toBe(-0.1);
  });

  it("has no meaning without a design airflow", () => {
    expect(() => balanceRatio(96, 0)).toThrow("designFlow must be above 0, but is 0");
    expect(() => balanceRatio(Number.NaN, 120)).toThrow("measuredFlow must be a finite number");
  });
});

describe("the common ratio at constant total", () => {
  it("of the worked network is 473 / 450 (derived by hand)", () => {
    expect(commonRatio(four)).toEqual({ ratio: 473 / 450, measuredFlow: 473, designFlow: 450, notMeasured: [] });
  });

  it("is not the mean of the ratios: 10 of 100 and 500 of 500 are 85 %, not 55 %", () => {
    expect(commonRatio([outlet("a", 100, 10), outlet("b", 500, 500)]).ratio).toBeCloseTo(0.85, 12);
  });

  it("leaves an outlet that nobody read out of both sums and names it", () => {
    expect(commonRatio([outlet("Hall", 100, 90), outlet("Bath", 50, undefined)])).toEqual({
      ratio: 0.9,
      measuredFlow: 90,
      designFlow: 100,
      notMeasured: ["Bath"],
    });
    expect(commonRatio([outlet("Bath", 50, undefined)]).ratio).toBeUndefined();
  });

  it("counts a reading of 0: the outlet was read and gets nothing", () => {
    expect(commonRatio([outlet("Hall", 100, 90), outlet("Bath", 50, 0)]).ratio).toBeCloseTo(0.6, 12);
  });

  it("lies between the lowest and the highest ratio", () => {
    fc.assert(
      fc.property(arbitraryOutlets, (outlets) => {
        const ratios = outlets.map((one) => (one.measuredFlow ?? Number.NaN) / one.designFlow);
        const { ratio = Number.NaN } = commonRatio(outlets);
        expect(ratio).toBeGreaterThanOrEqual(Math.min(...ratios) * (1 - 1e-12));
        expect(ratio).toBeLessThanOrEqual(Math.max(...ratios) * (1 + 1e-12));
      }),
    );
  });

  it("refuses an empty list, an outlet without design and a reading that is no number", () => {
    expect(() => commonRatio([])).toThrow("outlets must be at least one value");
    expect(() => commonRatio([outlet("a", 0, 10)])).toThrow("designFlow must be above 0");
    expect(() => commonRatio([outlet("a", 100, Number.NaN)])).toThrow("measuredFlow must be a finite number");
  });
});

describe("the key outlet", () => {
  it("is the one of lowest ratio, not of lowest airflow", () => {
    expect(keyOutlet(four)).toMatchObject({ name: "3", ratio: 0.8 });
  });

  it("stays the open one while a throttled one reads lower", () => {
    const later = [outlet("3", 120, 97), outlet("4", 80, 64, { damper: "throttled" })];
    expect(keyOutlet(later)?.name).toBe("3");
  });

  it("is the lowest of all where every damper was throttled, and the first of equals", () => {
    const shut = four.map((one) => ({ ...one, damper: "throttled" as const }));
    expect(keyOutlet(shut)?.name).toBe("3");
    expect(keyOutlet([outlet("a", 100, 80), outlet("b", 50, 40)])?.name).toBe("a");
  });

  it("is never one that nobody read, and there is none while nobody read any", () => {
    expect(keyOutlet([outlet("a", 100, undefined), outlet("b", 50, 45)])?.name).toBe("b");
    expect(keyOutlet([outlet("a", 100, undefined)])).toBeUndefined();
  });

  it("stays the same when everything upstream changes by one factor", () => {
    fc.assert(
      fc.property(arbitraryOutlets, fc.double({ min: 0.2, max: 4, noNaN: true }), (outlets, factor) => {
        const changed = outlets.map((one) => ({ ...one, measuredFlow: (one.measuredFlow ?? Number.NaN) * factor }));
        const [before, after] = [keyOutlet(outlets), keyOutlet(changed)];
        expect(after?.ratio).toBeCloseTo((before?.ratio ?? Number.NaN) * factor, 9);
      }),
    );
  });
});

describe("the order of work", () => {
  it("goes from the key upwards", () => {
    expect(workOrder(four).map((one) => one.name)).toEqual(["3", "4", "2", "1"]);
  });

  it("takes branch by branch, the one that gets most first, and leaves out what nobody read", () => {
    const outlets = [
      outlet("a1", 100, 80, { branch: "A" }),
      outlet("b1", 100, 130, { branch: "B" }),
      outlet("a2", 100, 70, { branch: "A" }),
      outlet("b2", 100, 110, { branch: "B" }),
      outlet("c1", 100, undefined, { branch: "C" }),
    ];
    expect(workOrder(outlets).map((one) => one.name)).toEqual(["b2", "b1", "a2", "a1"]);
  });

  it("holds each outlet that was read once", () => {
    fc.assert(
      fc.property(arbitraryOutlets, (outlets) => {
        const names = workOrder(outlets).map((one) => one.name);
        expect([...names].sort()).toEqual(outlets.map((one) => one.name).sort());
      }),
    );
  });
});

describe("the next setting", () => {
  const setting = (outlets: readonly BalanceOutlet[], window: number) =>
    nextSetting(estimatedBranch("Supply", outlets, FRESH_READINGS), window, null);

  it("is the next-lowest outlet that does not match, a little above the key's ratio since the key will rise", () => {
    // shared = (473 − 72 + 64) / 473, f = √(1.7 / (1 + 0.7 · 0.9831²)) = 1.0069, by hand
    const next = setting(four, 1.02);
    expect(next).toMatchObject({ outlet: { name: "4" }, key: { name: "3" } });
    expect(next?.targetFlow).toBeCloseTo(1.0069 * 64, 2);
  });

  it("opens again what was throttled too far, before it goes on", () => {
    const later = [outlet("3", 120, 100), outlet("4", 80, 60, { damper: "throttled" }), outlet("1", 100, 140)];
    expect(setting(later, 1.02)).toMatchObject({ outlet: { name: "4" }, key: { name: "3" } });
  });

  it("sends a large outlet that was set before no further than where both meet at the same total", () => {
    // Both would meet at 330 / 400 · 300 = 247.5.
    const overshot = [outlet("big", 300, 210, { damper: "throttled" }), outlet("key", 100, 120)];
    expect(setting(overshot, 1.02)?.targetFlow).toBeGreaterThan(210);
    expect(setting(overshot, 1.02)?.targetFlow).toBeLessThan(252);
  });

  it("aims at the middle of what stays untouched", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 88), outlet("c", 1, 2)];
    expect(setting(outlets, 1.12)?.targetRatio).toBeCloseTo(Math.sqrt(0.8 * 0.88), 1);
  });

  it("is none where all match: a difference of exactly what is allowed matches", () => {
    expect(setting([outlet("a", 100, 100), outlet("b", 100, 125)], 1.25)).toBeUndefined();
    expect(setting([outlet("a", 100, 100), outlet("b", 100, 125.1)], 1.25)?.outlet.name).toBe("b");
  });

  it("is none to a key that gets no air, and none where nobody read", () => {
    expect(setting([outlet("a", 100, 0), outlet("b", 100, 120)], 1.02)).toBeUndefined();
    expect(setting([outlet("a", 100, -5), outlet("b", 100, 120)], 1.02)).toBeUndefined();
    expect(setting([outlet("a", 100, undefined)], 1.02)).toBeUndefined();
  });
});

describe("how near counts as matched", () => {
  it("is a part of the limits, less where branches are matched as well and where readings scatter", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (minus, plus, repeatPercent) => {
          const whole = (100 + plus) / (100 - minus);
          const one = matchWindow(limits(minus, plus), 1, repeatPercent);
          const several = matchWindow(limits(minus, plus), 3, repeatPercent);
          expect(one.outletRatio).toBeLessThanOrEqual(whole * (1 + 1e-12));
          expect(several.outletRatio).toBeLessThanOrEqual(several.systemRatio * (1 + 1e-12));
          expect(several.outletRatio).toBeGreaterThanOrEqual(1 - 1e-12);
        },
      ),
    );
  });

  it("is nothing between limits without width, and refuses limits that no air would meet", () => {
    expect(matchWindow(limits(0, 0), 1, 0).outletRatio).toBe(1);
    expect(() => matchWindow(limits(5, -1), 1, 0)).toThrow("plusPercent must be 0 or more");
    expect(() => matchWindow(limits(100, 0), 1, 0)).toThrow("minusPercent must be from 0 to below 100");
  });
});

describe("the total at which to set the fan", () => {
  it("is the sum of the design airflows", () => {
    expect(fanTarget([outlet("a", 100, 92), outlet("b", 120, 110.4)], limits(5, 10))).toBe(220);
  });

  it("moves into the middle of what holds both ends where the band lies to one side of design", () => {
    // ratios 0.9 and 0.92: a total of 450 would leave the lower below −0 %; both fit from 0.9 / 1 to 0.92 / 1.1
    const outlets = [outlet("a", 225, 202.5), outlet("b", 225, 207)];
    const total = fanTarget(outlets, limits(0, 10));
    const factor = total / 409.5;
    expect(factor).toBeCloseTo((1 / 0.9 + 1.1 / 0.92) / 2, 12);
    expect(0.9 * factor).toBeGreaterThan(1);
    expect(0.92 * factor).toBeLessThan(1.1);
  });

  it("moves down where the highest outlet would leave the band at the sum of the design airflows", () => {
    // ratios 1.2 and 0.95, together 0.99: at design the highest would stand at 1.21
    const outlets = [outlet("a", 100, 120), outlet("b", 500, 475)];
    const factor = fanTarget(outlets, limits(10, 15)) / 595;
    expect(factor).toBeCloseTo((0.9 / 0.95 + 1.15 / 1.2) / 2, 12);
    expect(1.2 * factor).toBeLessThan(1.15);
    expect(0.95 * factor).toBeGreaterThan(0.9);
  });

  it("stays the sum of the design airflows while an outlet is just inside the band there", () => {
    // ratios 0.5 and 1.5 around 1: the total stays, and each stands at an end of the band
    expect(fanTarget([outlet("a", 100, 50), outlet("b", 100, 150)], limits(50, 50))).toBe(200);
  });

  it("is refused while an outlet is not read or gets no air", () => {
    expect(() =>
      fanTarget([outlet("a", 100, 92), outlet("b", 120, undefined), outlet("c", 90, undefined)], limits(5, 10)),
    ).toThrow("outlets must be read, every one, but is not read: b, c");
    expect(() => fanTarget([outlet("b", 120, undefined)], limits(5, 10))).toThrow("not read: b");
    expect(() => fanTarget([outlet("a", 100, 92), outlet("b", 120, 0)], limits(5, 10))).toThrow(
      "measuredFlow must be above 0",
    );
    expect(() => fanTarget(four, limits(100, 10))).toThrow("minusPercent must be from 0 to below 100");
    expect(() => fanTarget(four, limits(5, -1))).toThrow("plusPercent must be 0 or more");
  });
});
