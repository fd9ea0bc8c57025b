import { describe, expect, it } from "vitest";
import {
  airflowWords,
  type BalanceOutlet,
  type BalanceSystem,
  balanceAdvice,
  FRESH_READINGS,
  lowOutlets,
  type ReadingOrder,
} from "../../../src/core/index.js";
import { outlet } from "./outlet.js";

const system = (outlets: readonly BalanceOutlet[], more: Partial<BalanceSystem> = {}): BalanceSystem => ({
  outlets,
  throttledBranches: [],
  fanMaximumFlow: Number.POSITIVE_INFINITY,
  limits: { minusPercent: 5, plusPercent: 10 },
  airflowWords: (airflow) => `${airflowWords(airflow)} cfm`,
  order: FRESH_READINGS,
  ...more,
});

describe("the advice", () => {
  it("asks for missing readings before anything else, by name", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 140), outlet("Bath", 120, undefined)]));
    expect(advice.step).toEqual({ kind: "measure", outlets: ["Bath"] });
    expect(advice.words).toBe("Read Bath first. It has no reading.");
    expect(advice.low).toEqual([]);
  });

  it("has nothing to do where every outlet is inside its band, ends included", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 95), outlet("Bath", 100, 110)]));
    expect(advice.step).toEqual({ kind: "done" });
    expect(balanceAdvice(system([outlet("Hall", 100, 94.9), outlet("Bath", 100, 110)])).step.kind).not.toBe("done");
    expect(balanceAdvice(system([outlet("Hall", 100, 95), outlet("Bath", 100, 110.1)])).step.kind).not.toBe("done");
  });

  it("matches nothing to an outlet without air, and sends somebody to look", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 140), outlet("Bath", 100, 0), outlet("Den", 80, -4)]));
    expect(advice.step).toEqual({ kind: "find blockage", outlets: ["Bath", "Den"] });
    expect(advice.words).toContain("Bath, Den get no air or reverse flow. Look");
    expect(advice.words).not.toContain("Bath has");
  });

  it("sets the next outlet and says which damper stays open", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 140), outlet("Bath", 120, 96)]));
    expect(advice.words).toBe(
      // shared = (236 − 140 + 80) / 236, f = √(1.7 / (1 + 0.7 · 0.7458²)) = 1.106; 1.106 · 0.8 · 100, by hand
      "Set Hall to 88 cfm: 88 % of design, to match key outlet Bath; leave Bath fully open. Then read Hall and Bath again.",
    );
  });

  it("shows a small airflow with a decimal", () => {
    const advice = balanceAdvice(system([outlet("Closet", 8, 12), outlet("Bath", 120, 96)]));
    expect(advice.words).toMatch(/^Set Closet to 6\.[56] cfm: /);
  });

  it("finishes the branch that gets most before it turns to the next", () => {
    const outlets = [
      outlet("a1", 100, 60, { branch: "A" }),
      outlet("a2", 100, 80, { branch: "A" }),
      outlet("b1", 100, 110, { branch: "B" }),
      outlet("b2", 100, 140, { branch: "B" }),
    ];
    expect(balanceAdvice(system(outlets)).step).toMatchObject({ kind: "set outlet", branch: "B", outlet: "b2" });
  });

  it("sets branches against each other once each is in proportion within itself", () => {
    const outlets = [
      outlet("a1", 100, 80, { branch: "A" }),
      outlet("a2", 100, 80, { branch: "A" }),
      outlet("b1", 100, 120, { branch: "B" }),
      outlet("b2", 200, 240, { branch: "B" }),
    ];
    const advice = balanceAdvice(system(outlets));
    // shared = (520 − 120) / 520, f = √(1.7 / (1 + 0.7 · 0.7692²)) = 1.0964; 1.0964 · 0.8 · 300, by hand
    expect(advice.step).toMatchObject({
      kind: "set branch",
      branch: "B",
      targetFlow: expect.closeTo(263.1, 1),
      watched: "b1",
      watchedFlow: expect.closeTo(87.7, 1),
    });
    expect(advice.words).toContain(
      "Set branch B to a total of 263 cfm: 88 % of design, to match key branch A. b1 then reads 88 cfm.",
    );
  });

  it("keeps the open branch as key while a throttled branch reads lower, and opens that a little", () => {
    const outlets = [outlet("a", 100, 92, { branch: "A" }), outlet("b", 100, 75, { branch: "B" })];
    const { step } = balanceAdvice(system(outlets, { throttledBranches: ["B"] }));
    // Opening B takes from A: at a constant total both would meet at 83.5, and it stops short of that.
    expect(step).toMatchObject({ kind: "set branch", branch: "B" });
    expect("targetFlow" in step && step.targetFlow).toBeGreaterThan(80);
    expect("targetFlow" in step && step.targetFlow).toBeLessThan(86);
  });

  it("raises the fan last, with a caution for its motor, and lowers it without", () => {
    const raise = balanceAdvice(system([outlet("a", 100, 92), outlet("b", 100, 92)]));
    expect(raise.step).toEqual({ kind: "set fan", targetFlow: 200, watched: "a", watchedFlow: 100 });
    expect(raise.words).toBe(
      "Set the fan for a total of 200 cfm. All outlets share in proportion at 92 % of design. a then reads 100 cfm. Then read every outlet again. Check the motor current before speeding a fan up.",
    );
    const lower = balanceAdvice(system([outlet("a", 100, 120), outlet("b", 100, 120)]));
    expect(lower.step).toMatchObject({ kind: "set fan", targetFlow: 200 });
    expect(lower.words).not.toContain("motor");
  });

  it("asks no more of the fan than it gives, then reports what is missing", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 80)];
    expect(balanceAdvice(system(outlets, { fanMaximumFlow: 180 })).step).toMatchObject({
      kind: "set fan",
      targetFlow: 180,
    });
    const advice = balanceAdvice(system(outlets, { fanMaximumFlow: 160 }));
    expect(advice.step).toEqual({ kind: "report shortfall", ratio: 0.8 });
    expect(advice.words).toMatch(/^The fan gives no more\. All outlets .* of design\. Report the shortfall\.$/);
  });

  it("refuses an empty system and a band upside down", () => {
    expect(() => balanceAdvice(system([]))).toThrow("outlets must be at least one value");
    expect(() =>
      balanceAdvice(system([outlet("a", 100, 90)], { limits: { minusPercent: 5, plusPercent: -1 } })),
    ).toThrow("plusPercent");
  });
});

describe("readings older than the last change", () => {
  const order = (more: Partial<ReadingOrder>): ReadingOrder => ({ ...FRESH_READINGS, ...more });
  const even = [outlet("S1", 100, 100), outlet("S2", 100, 101), outlet("S3", 100, 102)];

  it("are never called done: they are asked for by name (regression: done on stale readings)", () => {
    expect(balanceAdvice(system(even)).step.kind).toBe("done");
    const stale = balanceAdvice(
      system(even, { order: order({ old: ["S2", "S3"], round: { S1: 100, S2: 101, S3: 102 } }) }),
    );
    expect(stale.step).toEqual({ kind: "read again", outlets: ["S2", "S3"], purpose: "verify" });
    expect(stale.words).toBe("Read again: S2, S3. They were read before the last change.");
  });

  it("lets no outlet be set to a key that was not read since: the key is asked for first", () => {
    const outlets = [outlet("key", 100, 80), outlet("mid", 100, 110), outlet("high", 100, 140)];
    const round = { key: 80, mid: 110, high: 140 };
    const asked = balanceAdvice(system(outlets, { order: order({ old: ["key", "high"], set: ["mid"], round }) }));
    expect(asked.step).toEqual({ kind: "read again", outlets: ["key"], purpose: "key" });
  });

  it("still tell which outlet is next, by the proportion that untouched outlets keep", () => {
    const outlets = [outlet("key", 100, 84), outlet("mid", 100, 84, { damper: "throttled" }), outlet("high", 100, 140)];
    const round = { key: 80, mid: 110, high: 140 };
    const next = balanceAdvice(system(outlets, { order: order({ old: ["high"], set: ["mid"], round }) }));
    expect(next.step).toMatchObject({ kind: "set outlet", outlet: "high" });
    // It now gets 140 · 84 / 80 = 147, and is sent above the key's 84, which will rise.
    expect("targetFlow" in next.step && next.step.targetFlow).toBeGreaterThan(84);
  });

  it("are asked for, the whole branch, where nothing is known of the round before", () => {
    const asked = balanceAdvice(system(even, { order: order({ old: ["S2", "S3"] }) }));
    expect(asked.step).toMatchObject({ kind: "read again", outlets: ["S2", "S3"] });
  });

  it("are refused of an outlet that is not in the list", () => {
    expect(() => balanceAdvice(system(even, { order: order({ old: ["S9"] }) }))).toThrow("order must be of outlets");
  });
});

describe("readings that scatter", () => {
  const scattering = (repeatPercent: number, counts: ReadingOrder["counts"] = {}): ReadingOrder => ({
    ...FRESH_READINGS,
    repeatPercent,
    counts,
  });
  const limits = { minusPercent: 10, plusPercent: 10 };

  it("move no damper for a difference that the next reading may take away: it is read again and averaged", () => {
    const outlets = [outlet("S1", 100, 100), outlet("S2", 100, 112)];
    const { step } = balanceAdvice(system(outlets, { limits, order: scattering(2.5) }));
    expect(step).toEqual({ kind: "read again", outlets: ["S2"], purpose: "average" });
    expect(balanceAdvice(system(outlets, { limits, order: scattering(0.5) })).step.kind).not.toBe("read again");
  });

  it("end where averaging cannot tell more: it says so and stops", () => {
    const outlets = [outlet("S1", 100, 100), outlet("S2", 100, 110.5)];
    const advice = balanceAdvice(system(outlets, { limits, order: scattering(2.5, { S1: 4, S2: 4 }) }));
    expect(advice.step).toEqual({ kind: "noise floor", outlets: ["S2"] });
    expect(advice.words).toContain("Stop here. S2 (111 %): outside limits by less than readings repeat.");
  });

  it("are averaged from the start where they are coarse against the limits", () => {
    const outlets = [outlet("S1", 100, undefined)];
    expect(balanceAdvice(system(outlets, { limits, order: scattering(2.5) })).readingsEach).toBe(1);
    const coarse = balanceAdvice(system(outlets, { limits, order: scattering(5) }));
    expect(coarse.readingsEach).toBe(4);
    expect(coarse.words).toContain("Take the average of 4 readings each time.");
  });

  it("never lead on without end: after eight changes an outlet it stops and says what else it may be", () => {
    const outlets = [outlet("S1", 100, 100), outlet("S2", 100, 140)];
    const advice = balanceAdvice(system(outlets, { order: { ...FRESH_READINGS, changeCount: 17 } }));
    expect(advice.step.kind).toBe("noise floor");
    expect(advice.words).toContain("still outside limits after 17 changes");
  });
});

describe("an open outlet below its band", () => {
  const reasons = (outlets: readonly BalanceOutlet[], fanMaximumFlow = Number.POSITIVE_INFINITY) =>
    lowOutlets(outlets, 5, fanMaximumFlow).map((low) => `${low.outlet.name}: ${low.reason}`);

  it("can be raised by throttling the others where the total suffices", () => {
    expect(reasons([outlet("Hall", 100, 140), outlet("Bath", 120, 96)])).toEqual(["Bath: others"]);
  });

  it("waits for the fan where the total is short", () => {
    const outlets = [outlet("Hall", 100, 80), outlet("Bath", 120, 84)];
    expect(reasons(outlets)).toEqual(["Hall: fan", "Bath: fan"]);
    expect(lowOutlets(outlets, 5, Number.POSITIVE_INFINITY)[0]?.words).toContain("all outlets together get 75 %");
  });

  it("waits for the designer where the design adds up to more than the fan gives", () => {
    const outlets = [outlet("Hall", 100, 80), outlet("Bath", 120, 84)];
    expect(reasons(outlets, 170)).toEqual(["Hall: design", "Bath: design"]);
    expect(reasons(outlets, 209)).toEqual(["Hall: fan", "Bath: fan"]);
    expect(lowOutlets(outlets, 5, 176)[0]?.words).toContain("80 % of the sum of the design airflows");
  });

  it("has a duct to be looked into where its neighbours get more than twice as much", () => {
    expect(reasons([outlet("Hall", 100, 100), outlet("Bath", 100, 49)])).toEqual(["Bath: duct"]);
    expect(reasons([outlet("Hall", 100, 100), outlet("Bath", 100, 50)])).toEqual(["Bath: fan"]);
  });

  it("is starved with its whole branch where the other branches get more than twice as much", () => {
    const outlets = [
      outlet("a1", 100, 100, { branch: "A" }),
      outlet("b1", 100, 45, { branch: "B" }),
      outlet("b2", 100, 40, { branch: "B" }),
    ];
    expect(reasons(outlets)).toEqual(["b1: duct", "b2: duct"]);
    expect(lowOutlets(outlets, 5, Number.POSITIVE_INFINITY)[0]?.words).toContain("its whole branch gets 43 %");
  });

  it("is not named when its damper is throttled and can be opened, or when it is just inside the band", () => {
    expect(reasons([outlet("Hall", 100, 80, { damper: "throttled" }), outlet("Bath", 100, 95)])).toEqual([]);
  });

  it("is not judged until every outlet was read: the total would be a guess", () => {
    expect(reasons([outlet("Hall", 100, undefined), outlet("Bath", 100, 50)])).toEqual([]);
  });

  it("alone in a system has no neighbours to be compared with", () => {
    expect(reasons([outlet("Hall", 100, 20)])).toEqual(["Hall: fan"]);
  });

  it("is refused with a band or a fan below 0", () => {
    expect(() => reasons([outlet("a", 100, 90)], 0)).toThrow("fanMaximumFlow must be above 0");
    expect(() => reasons([outlet("a", 100, 90)], Number.NaN)).toThrow("fanMaximumFlow must be above 0");
    expect(() => lowOutlets([outlet("a", 100, 90)], 100, 100)).toThrow("minusPercent must be from 0 to below 100");
  });
});
