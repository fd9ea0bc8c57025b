import { describe, expect, it } from "vitest";
import {
  airflowWords,
  type BalanceOutlet,
  type BalanceSystem,
  balanceAdvice,
  FRESH_READINGS,
  type ReadingOrder,
} from "../../../src/core/index.js";

const outlet = (
  name: string,
  designFlow: number,
  measuredFlow: number | undefined,
  branch = "Supply",
): BalanceOutlet => ({ name, branch, designFlow, measuredFlow, damper: "open" });

const advised = (
  outlets: readonly BalanceOutlet[],
  order: Partial<ReadingOrder> = {},
  more: Partial<BalanceSystem> = {},
) =>
  balanceAdvice({
    outlets,
    throttledBranches: [],
    fanMaximumFlow: Number.POSITIVE_INFINITY,
    limits: { minusPercent: 5, plusPercent: 10 },
    airflowWords: (airflow) => `${airflowWords(airflow)} cfm`,
    order: { ...FRESH_READINGS, ...order },
    ...more,
  });

describe("which branch is set next", () => {
  const three = (a: number, b: number, c: number) => [
    outlet("a", 100, a, "A"),
    outlet("b", 100, b, "B"),
    outlet("c", 100, c, "C"),
  ];

  it("is the lowest that does not match the key branch", () => {
    expect(advised(three(80, 120, 100)).step).toMatchObject({ kind: "set branch", branch: "C", watched: "c" });
    expect(advised(three(80, 100, 120)).step).toMatchObject({ kind: "set branch", branch: "B" });
  });

  it("is one below the key only where somebody has throttled it: an open one takes no more", () => {
    const all = { throttledBranches: ["A", "B", "C"] };
    // All throttled: the lowest is the key, as among outlets.
    expect(advised(three(80, 120, 100), {}, all).step).toMatchObject({ kind: "set branch", branch: "C" });
    const one = advised(three(100, 120, 80), {}, { throttledBranches: ["C"] });
    expect(one.step).toMatchObject({ kind: "set branch", branch: "C" });
    expect("targetFlow" in one.step && one.step.targetFlow).toBeGreaterThan(80);
  });

  it("is none while all outlets fit 0.8 of the limits: then the fan is set", () => {
    // (1.1 / 0.95) ^ 0.8 = 1.1244
    const two = (b: number) => advised([outlet("a", 100, 100, "A"), outlet("b", 100, b, "B")]).step;
    expect(two(112).kind).toBe("set fan");
    expect(two(112.5)).toMatchObject({ kind: "set branch", branch: "B" });
  });

  it("waits for a reading of the key of each branch that has none since the last change", () => {
    const outlets = [
      outlet("a1", 100, 80, "A"),
      outlet("a2", 100, 81, "A"),
      outlet("b1", 100, 120, "B"),
      outlet("b2", 100, 121, "B"),
    ];
    const round = { a1: 80, a2: 81, b1: 130, b2: 131 };
    const asked = advised(outlets, { old: ["a1", "a2", "b2"], round });
    expect(asked.step).toEqual({ kind: "read again", outlets: ["a1"], purpose: "key" });
    expect(asked.words).toBe("Read again: a1. Each sets the level of its branch.");
    const set = advised(outlets, { old: ["a1", "a2", "b2"], set: ["a1"], round });
    expect(set.step).toMatchObject({ kind: "read again", outlets: ["a2"] });
    const both = advised(outlets, { old: ["a1", "a2", "b1", "b2"], round });
    expect(both.step).toMatchObject({ kind: "read again", outlets: ["a1", "b1"] });
  });
});

describe("the total of a branch and its outlet to watch", () => {
  it("change by one factor, though its outlets lie apart and the large one lies low", () => {
    const outlets = [outlet("a", 100, 80, "A"), outlet("b", 300, 300, "B"), outlet("c", 100, 106, "B")];
    const { step, words } = advised(outlets);
    // The middle of B is √(1 · 1.06) = 1.02956, its total 406 of 486 in all; shared = 1 − (1 − 0.8 / 1.02956) · 406 / 486,
    // f = √(1.7 / (1 + 0.7 · 0.81373²)) = 1.07768; the factor is 0.8 / 1.02956 · f = 0.83739, by hand.
    expect(step).toMatchObject({
      kind: "set branch",
      branch: "B",
      targetFlow: expect.closeTo(339.98, 1),
      watched: "b",
      watchedFlow: expect.closeTo(251.22, 1),
    });
    expect(words).toContain("Set branch B to a total of 340 cfm: 85 % of design, to match key branch A. b then reads");
  });
});

describe("the fan", () => {
  it("is watched at the largest outlet that was read since the last change", () => {
    const outlets = [outlet("a", 100, 120), outlet("b", 300, 361), outlet("c", 200, 241), outlet("d", 300, 360)];
    expect(advised(outlets).step).toMatchObject({ kind: "set fan", watched: "b" });
    const order = { old: ["b", "d"], round: { a: 120, b: 361, c: 241, d: 360 } };
    const later = advised(outlets, order).step;
    expect(later).toMatchObject({ kind: "set fan", watched: "c", targetFlow: 900 });
    expect("watchedFlow" in later && later.watchedFlow).toBeCloseTo((241 * 900) / 1082, 9);
  });

  it("counts as at its maximum within two percent of it", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 80)];
    expect(advised(outlets, {}, { fanMaximumFlow: 163 }).step.kind).toBe("report shortfall");
    expect(advised(outlets, {}, { fanMaximumFlow: 164 }).step).toMatchObject({ kind: "set fan", targetFlow: 164 });
    const above = [outlet("a", 100, 120), outlet("b", 100, 120)];
    expect(advised(above, {}, { fanMaximumFlow: 240 }).step).toMatchObject({ kind: "set fan", targetFlow: 200 });
  });

  it("is set on what is foreseen where one outlet alone leaves its limits", () => {
    const order = { old: ["b"], round: { a: 108, b: 112 } };
    expect(advised([outlet("a", 100, 108), outlet("b", 100, 112)], order).step.kind).toBe("set fan");
    const within = advised([outlet("a", 100, 108), outlet("b", 100, 110)], { ...order, round: { a: 108, b: 110 } });
    expect(within.step).toEqual({ kind: "read again", outlets: ["b"], purpose: "verify" });
  });

  it("is not said to fall short on readings older than the last change", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 80)];
    const order = { old: ["b"], round: { a: 80, b: 80 } };
    expect(advised(outlets, order, { fanMaximumFlow: 160 }).step).toEqual({
      kind: "read again",
      outlets: ["b"],
      purpose: "verify",
    });
  });
});

describe("how near a limit is too near to tell", () => {
  const limits = { minusPercent: 10, plusPercent: 10 };
  const step = (measured: number, counts: ReadingOrder["counts"] = {}) =>
    advised([outlet("S1", 100, 100), outlet("S2", 100, measured)], { repeatPercent: 2.5, counts }, { limits }).step;

  it.each([
    // 1.1 · (1 ± 0.025) and 1.1 · (1 + 2.5 · 0.025), 0.9 alike: by hand.
    [107, "done"],
    [107.5, "read again"],
    [116.5, "read again"],
    [117, "set outlet"],
    [92.5, "done"],
    [92, "read again"],
    [84.5, "read again"],
  ])("leaves one reading of %s %% at: %s", (measured, kind) => {
    expect(step(measured).kind).toBe(kind);
  });

  it("moves a damper below the wider limit: the other outlet is taken down to this one", () => {
    expect(step(84)).toMatchObject({ kind: "set outlet", outlet: "S1" });
  });

  it("narrows with the root of the number of readings, and ends after four", () => {
    // 1.1 · (1 + 2.5 · 0.025 / √2) = 1.1486, and after four readings 1.1 · (1 + 0.025 / 2) = 1.11375
    expect(step(114.8, { S2: 2 })).toMatchObject({ kind: "read again", outlets: ["S2"], purpose: "average" });
    expect(step(115, { S2: 2 }).kind).toBe("set outlet");
    expect(step(111.3, { S2: 4 })).toMatchObject({ kind: "noise floor", outlets: ["S2"] });
    // Both outlets match: what is left is the total.
    expect(step(111.5, { S2: 4 }).kind).toBe("set fan");
    expect(step(109, { S2: 4 }).kind).toBe("done");
    expect(step(109, { S2: 3 }).kind).toBe("read again");
  });

  it("asks for so many readings that eight standard deviations of their mean fit, four at most", () => {
    // (8 · s / ln(1.1 / 0.9))²: 0.993 at 2.5 %, 1.074 at 2.6 %, 2.54 at 4 %, 3.97 at 5 %
    const each = (repeatPercent: number) =>
      advised([outlet("S1", 100, 100)], { repeatPercent }, { limits }).readingsEach;
    expect([0, 2.5, 2.6, 4, 5, 20].map(each)).toEqual([1, 1, 2, 3, 4, 4]);
  });

  it("counts four times as many readings as are averaged each time before it leaves an outlet", () => {
    const outlets = [outlet("S1", 100, 100), outlet("S2", 100, 109.2)];
    const after = (count: number) => advised(outlets, { repeatPercent: 2.6, counts: { S2: count } }, { limits });
    expect(after(7).step).toEqual({ kind: "read again", outlets: ["S2"], purpose: "average" });
    expect(after(7).words).toContain("Use the average of all readings, 8 at most: too near a limit to tell.");
    expect(after(8).step.kind).toBe("done");
  });

  it("asks for the average where something is read or set, and not where the fan is", () => {
    const order = { repeatPercent: 2.6 };
    expect(advised([outlet("S1", 100, undefined)], order, { limits }).words).toBe(
      "Read S1 first. It has no reading. Take the average of 2 readings each time.",
    );
    const fan = advised([outlet("S1", 100, 130), outlet("S2", 100, 130)], order, { limits });
    expect(fan.step.kind).toBe("set fan");
    expect(fan.words).not.toContain("average");
  });
});

describe("what the advice says first", () => {
  it("names what was not read, and what to do where little is left", () => {
    const read = [outlet("a", 100, 100), outlet("b", 100, 100)];
    const one = advised([...read, outlet("c", 100, undefined)]);
    expect(one.words).toBe(
      "Read c first. It has no reading. Where nobody can read it, take its row out of the balance and report it.",
    );
    const two = advised([...read, outlet("c", 100, undefined), outlet("d", 100, undefined)]);
    expect(two.step).toEqual({ kind: "measure", outlets: ["c", "d"] });
    expect(two.words).toBe("Read c, d first.");
  });

  it("asks after the fan where no outlet gets air, and after the one that gets none", () => {
    const none = advised([outlet("a", 100, 0), outlet("b", 100, 0, "B")]);
    expect(none.step).toEqual({ kind: "find blockage", outlets: ["a", "b"] });
    expect(none.words).toContain("No outlet gets any air. Look whether the fan runs");
    const one = advised([outlet("a", 100, 90), outlet("b", 100, 0)]);
    expect(one.words).toBe("b gets no air or reverse flow. Look for a closed damper or an open duct.");
  });

  it("says that outlets without a round have to be read since a damper was set", () => {
    const asked = advised([outlet("a", 100, 100), outlet("b", 100, 130)], { old: ["b"] });
    expect(asked.step).toEqual({ kind: "read again", outlets: ["b"], purpose: "key" });
    expect(asked.words).toBe("Read again: b. A damper was set since they were read.");
  });

  it("leaves an outlet alone after more than eight changes an outlet, and not after eight", () => {
    const outlets = [outlet("a", 100, 100), outlet("b", 100, 140)];
    expect(advised(outlets, { changeCount: 16 }).step.kind).toBe("set outlet");
    const last = advised(outlets, { changeCount: 17 });
    expect(last.step).toEqual({ kind: "noise floor", outlets: ["b"] });
    expect(last.words).toBe(
      "Stop here. b (140 %): still outside limits after 17 changes. Look for what else moves the air.",
    );
  });

  it("sets nothing more by older readings after more than eight changes an outlet, but has all of them read", () => {
    const outlets = [outlet("a", 100, 100), outlet("b", 100, 140)];
    const round = { a: 100, b: 140 };
    expect(advised(outlets, { changeCount: 16, old: ["b"], round }).step.kind).toBe("set outlet");
    const last = advised(outlets, { changeCount: 17, old: ["b"], round });
    expect(last.step).toEqual({ kind: "read again", outlets: ["b"], purpose: "verify" });
    expect(last.words).toBe("Read again: b. After 17 changes only new readings count.");
  });

  it("refuses a reading that is no number, a spread below 0 and an order of outlets that are not there", () => {
    expect(() => advised([outlet("a", 100, Number.NaN)])).toThrow("measuredFlow must be a finite number");
    expect(() => advised([outlet("a", 100, 100)], { repeatPercent: -1 })).toThrow("repeatPercent");
    expect(() => advised([outlet("a", 100, 100)], { set: ["b"] })).toThrow("order must be of outlets in the list");
  });
});
