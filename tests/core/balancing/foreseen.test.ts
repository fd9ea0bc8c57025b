import { describe, expect, it } from "vitest";
import { foreseenRise, learnedStiffness } from "../../../src/core/balancing/foreseen-rise.js";
import { matchedBranch } from "../../../src/core/balancing/next-setting.js";
import {
  type BalanceOutlet,
  estimatedBranch,
  FRESH_READINGS,
  matchWindow,
  nextSetting,
  type ReadingOrder,
} from "../../../src/core/index.js";
import { outlet } from "./outlet.js";

const order = (more: Partial<ReadingOrder>): ReadingOrder => ({ ...FRESH_READINGS, ...more });

describe("the rise of the others that a move brings about", () => {
  it("is what the pressures say: P = 60 Pa upstream, p = P − c · Q² behind it, Q = K · √p", () => {
    // 25 Pa behind the trunk at the start: α = 35 / 25. With 0.8 of K the new p solves p + 35 / 25 · 0.8² · p = 60.
    const pressureAfter = 60 / (1 + (35 / 25) * 0.8 ** 2);
    expect(foreseenRise(0.8, 35 / 25)).toBeCloseTo(Math.sqrt(pressureAfter / 25), 12);
  });

  it("is none at a constant pressure, and all that was left at a constant total", () => {
    expect(foreseenRise(0.8, 0)).toBe(1);
    expect(foreseenRise(0.8, 1e9)).toBeCloseTo(1 / 0.8, 6);
    expect(foreseenRise(1, 5)).toBe(1);
    expect(foreseenRise(1.25, 3)).toBeLessThan(1);
  });

  it("teaches the figure of the branch, nearer the truth the larger the move was", () => {
    const learned = (sharedRatio: number) => learnedStiffness(foreseenRise(sharedRatio, 2.5), sharedRatio);
    expect(learned(0.5)).toBeCloseTo(2.5, 0);
    expect(Math.abs(learned(0.5) - 2.5)).toBeLessThan(Math.abs(learned(0.9) - 2.5));
    expect(learned(0.9)).toBeGreaterThan(0.7);
  });

  it("by hand: a rise of 1.2 at 0.75 is (0.44 + 0.03 · 0.7) / (1 − 0.81 + 0.03)", () => {
    expect(learnedStiffness(1.2, 0.75)).toBeCloseTo(0.461 / 0.22, 12);
  });

  it("teaches nothing where nothing was throttled or nothing rose", () => {
    expect(learnedStiffness(1.1, 1)).toBe(0.7);
    expect(learnedStiffness(1.1, 1.2)).toBe(0.7);
    expect(learnedStiffness(1, 0.5)).toBe(0.7);
    expect(learnedStiffness(0.9, 0.5)).toBe(0.7);
  });

  it("is never stronger than a constant total, though a reading scatters beyond it", () => {
    expect(learnedStiffness(1.25, 0.8)).toBeCloseTo(0.5835 / 0.03, 9);
    expect(learnedStiffness(1.5, 0.8)).toBe(30);
  });
});

describe("the window of outlets that match", () => {
  const even = { minusPercent: 10, plusPercent: 10 };
  const whole = Math.log(110 / 90);

  it("is 0.8 of the limits, and 0.6 of that in one of several branches", () => {
    const one = matchWindow(even, 1, 0);
    expect(Math.log(one.outletRatio)).toBeCloseTo(0.8 * whole, 12);
    expect(one.systemRatio).toBe(one.outletRatio);
    const several = matchWindow(even, 2, 0);
    expect(Math.log(several.outletRatio)).toBeCloseTo(0.48 * whole, 12);
    expect(several.systemRatio).toBe(one.systemRatio);
  });

  it("is narrower by two standard deviations of a reading, and keeps a fourth of the limits", () => {
    expect(Math.log(matchWindow(even, 1, 2.5).outletRatio)).toBeCloseTo(0.8 * (whole - 0.05), 12);
    expect(Math.log(matchWindow(even, 1, 10).outletRatio)).toBeCloseTo((0.8 * whole) / 4, 12);
  });
});

describe("what the outlets of a branch get now", () => {
  const members = [outlet("Hall", 100, 150), outlet("Bath", 120, 99), outlet("Den", 80, 60, { damper: "throttled" })];
  const round = { Hall: 140, Bath: 96, Den: 64 };

  it("follows the untouched ones that were read again, not the one that was set", () => {
    const branch = estimatedBranch("Supply", members, order({ old: ["Hall"], set: ["Den"], round }));
    expect(branch).toMatchObject({ name: "Supply", riseRatio: 99 / 96, roundFlow: 300, unknown: [] });
    const [hall, bath, den] = branch.outlets;
    expect(hall).toMatchObject({ isFresh: false, isSet: false, measuredFlow: (140 * 99) / 96 });
    expect(hall?.ratio).toBeCloseTo((140 * 99) / 96 / 100, 12);
    expect(bath).toMatchObject({ isFresh: true, isSet: false, measuredFlow: 99, ratio: 0.825 });
    expect(den).toMatchObject({ isFresh: true, isSet: true, measuredFlow: 60, ratio: 0.75 });
  });

  it("weighs those that were read again by their airflow", () => {
    const { riseRatio } = estimatedBranch("Supply", members, order({ old: ["Den"], round }));
    expect(riseRatio).toBeCloseTo((150 + 99) / (140 + 96), 12);
  });

  it("keeps the proportion of the round where none was read again, and says that nothing is known of the rise", () => {
    const branch = estimatedBranch("Supply", members, order({ old: ["Hall", "Bath"], set: ["Den"], round }));
    expect(branch.riseRatio).toBeUndefined();
    expect(branch.outlets.map(({ measuredFlow }) => measuredFlow)).toEqual([140, 96, 60]);
  });

  it("names an old outlet without a round, and keeps its reading; one that was set is known", () => {
    const { Hall: _, ...rest } = round;
    const branch = estimatedBranch("Supply", members, order({ old: ["Hall", "Den"], set: ["Den"], round: rest }));
    expect(branch.unknown).toEqual(["Hall"]);
    expect(branch.roundFlow).toBeUndefined();
    expect(branch.outlets[0]).toMatchObject({ measuredFlow: 150, ratio: 1.5 });
    const fresh = estimatedBranch("Supply", members, order({ old: ["Den"], round: {} }));
    expect(fresh.unknown).toEqual(["Den"]);
  });

  it("takes no rise from an outlet without air", () => {
    const dead = [outlet("Hall", 100, 20), outlet("Bath", 120, 99)];
    expect(estimatedBranch("", dead, order({ round: { Hall: 0, Bath: 90 } })).riseRatio).toBe(1.1);
    const [hall, bath] = [outlet("Hall", 100, 0), outlet("Bath", 120, 99)];
    const none = estimatedBranch("", [hall, bath], order({ old: ["Bath"], round: { Hall: 20, Bath: 90 } }));
    expect(none.riseRatio).toBeUndefined();
    expect(none.outlets[1]?.measuredFlow).toBe(90);
  });
});

describe("where the outlets of a branch belong", () => {
  const branchOf = (outlets: readonly BalanceOutlet[], more: Partial<ReadingOrder> = {}) =>
    estimatedBranch("Supply", outlets, order(more));

  it("is the middle of what stays, the ends of the window included", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 100), outlet("c", 100, 130)];
    expect(matchedBranch(branchOf(outlets), 1.25)?.aimRatio).toBeCloseTo(Math.sqrt(0.8 * 1), 12);
    expect(matchedBranch(branchOf(outlets), 1.2)?.aimRatio).toBeCloseTo(0.8, 12);
  });

  it("is where one that was set and not read since is taken to stand, whatever its reading says", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 200, 300, { damper: "throttled" })];
    const round = { a: 80, b: 300 };
    const matched = matchedBranch(branchOf(outlets, { old: ["b"], set: ["b"], round }), 1.1);
    expect(matched?.outlets[1]?.ratio).toBeCloseTo(0.8, 12);
    expect(matched?.outlets[1]?.measuredFlow).toBeCloseTo(160, 12);
    const read = matchedBranch(branchOf(outlets, { set: ["b"], round }), 1.1);
    expect(read?.outlets[1]).toMatchObject({ ratio: 1.5, measuredFlow: 300 });
  });

  it("is told by an untouched open outlet, though one that was set reads lower", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 60), outlet("c", 100, 90)];
    const round = { a: 80, b: 130, c: 90 };
    expect(matchedBranch(branchOf(outlets, { set: ["b"], round }), 1.02)?.key.name).toBe("a");
    expect(matchedBranch(branchOf(outlets, { set: ["a", "b", "c"], round }), 1.02)?.key.name).toBe("b");
    // Untouched, but throttled in an earlier round: an open one that was set is the key before it.
    const shut = [outlet("a", 100, 80, { damper: "throttled" }), outlet("b", 100, 85)];
    expect(matchedBranch(branchOf(shut, { set: ["b"], round: { a: 80, b: 90 } }), 1.02)?.key.name).toBe("b");
  });

  it("is known of no branch without an outlet that was read", () => {
    expect(matchedBranch(branchOf([outlet("a", 100, undefined)]), 1.1)).toBeUndefined();
  });
});

describe("the airflow at which to stop", () => {
  const outlets = [outlet("key", 100, 84), outlet("mid", 100, 84, { damper: "throttled" }), outlet("high", 100, 140)];
  const round = { key: 80, mid: 110, high: 140 };
  const later = estimatedBranch("Supply", outlets, order({ old: ["high"], set: ["mid"], round }));
  // The high one now gets 140 · 84 / 80 = 147 of 315 in all; without its surplus they share 252.
  const rise = (stiffness: number) => Math.sqrt((1 + stiffness) / (1 + stiffness * (252 / 315) ** 2));

  it("rests on how the key followed the last move, by hand", () => {
    // At the old pressure all took 315 / 1.05 = 300 of 330.
    const learned = (1.05 ** 2 - 1 + 0.021) / (1 - (1.05 * (300 / 330)) ** 2 + 0.03);
    expect(nextSetting(later, 1.02, null)?.targetFlow).toBeCloseTo(84 * rise(learned), 9);
    expect(nextSetting(later, 1.02, null)?.targetRatio).toBeCloseTo(0.84 * rise(learned), 9);
  });

  it("takes the figure of the branch where it is known: 0 where its pressure is kept", () => {
    expect(nextSetting(later, 1.02, 0)?.targetFlow).toBeCloseTo(84, 12);
    expect(nextSetting(later, 1.02, 4)?.targetFlow).toBeCloseTo(84 * rise(4), 9);
  });

  it("takes the usual figure for an open damper, and is careful with one that was turned before", () => {
    const fresh = [outlet("key", 100, 84), outlet("mid", 100, 84), outlet("high", 100, 147)];
    const target = (members: readonly BalanceOutlet[], more: Partial<ReadingOrder> = {}) =>
      nextSetting(estimatedBranch("Supply", members, order(more)), 1.02, null)?.targetFlow;
    expect(target(fresh)).toBeCloseTo(84 * rise(0.7), 9);
    const turned = [outlet("key", 100, 84), outlet("mid", 100, 84), outlet("high", 100, 147, { damper: "throttled" })];
    expect(target(turned)).toBeCloseTo(84 * rise(30), 9);
    // A round of which one outlet is missing, or after which nothing was set, teaches nothing.
    expect(target(fresh, { set: ["mid"], round: { key: 80, high: 140 } })).toBeCloseTo(84 * rise(0.7), 9);
    expect(target(fresh, { round })).toBeCloseTo(84 * rise(0.7), 9);
  });

  it("opens what was throttled to less than the window below the highest that stays, and no further", () => {
    const low = (ratio: number) => [
      outlet("key", 100, 100),
      outlet("top", 100, 110),
      outlet("low", 100, ratio, { damper: "throttled" }),
    ];
    const next = (ratio: number) => nextSetting(estimatedBranch("", low(ratio), FRESH_READINGS), 1.1, null);
    expect(next(99.9)?.outlet.name).toBe("low");
    expect(next(100)).toBeUndefined();
    expect(next(99.9)?.targetFlow).toBeGreaterThan(99.9);
  });

  it("counts an outlet that sucks air in as no part of the total", () => {
    const members = [outlet("key", 100, 80), outlet("high", 100, 120), outlet("odd", 50, -10, { damper: "throttled" })];
    const next = nextSetting(estimatedBranch("", members, FRESH_READINGS), 1.1, 1);
    expect(next?.outlet.name).toBe("odd");
    // 80 + 120, and the odd one comes to 40: all would share 240 of 200.
    expect(next?.targetFlow).toBeCloseTo(40 * Math.sqrt(2 / (1 + 1.2 ** 2)), 9);
  });
});
