import { describe, expect, it } from "vitest";
import { type BalanceOutlet, type BalanceSystem, balanceAdvice, lowOutlets } from "../../../src/core/index.js";

const outlet = (
  name: string,
  designFlow: number,
  measuredFlow: number | undefined,
  more: Partial<BalanceOutlet> = {},
): BalanceOutlet => ({ name, branch: "Supply", designFlow, measuredFlow, damper: "open", ...more });

const system = (outlets: readonly BalanceOutlet[], more: Partial<BalanceSystem> = {}): BalanceSystem => ({
  outlets,
  throttledBranches: [],
  fanMaximumFlow: Number.POSITIVE_INFINITY,
  limits: { minusPercent: 5, plusPercent: 10 },
  flowUnit: "cfm",
  ...more,
});

describe("the advice", () => {
  it("asks for missing readings before anything else, by name", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 140), outlet("Bath", 120, undefined)]));
    expect(advice.step).toEqual({ kind: "measure", outlets: ["Bath"] });
    expect(advice.words).toBe("Read Bath first: not measured is not zero.");
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
    expect(advice.words).toContain("Find out why Bath, Den gets no air");
    expect(advice.words).not.toContain("Bath has");
  });

  it("sets the next outlet and says which damper stays open", () => {
    const advice = balanceAdvice(system([outlet("Hall", 100, 140), outlet("Bath", 120, 96)]));
    expect(advice.words).toBe(
      "Set Hall to 80 cfm (80 % of design, as the key outlet Bath, whose damper stays open). Then read both again.",
    );
  });

  it("shows a small airflow with a decimal", () => {
    const advice = balanceAdvice(system([outlet("Closet", 8, 12), outlet("Bath", 120, 96)]));
    expect(advice.words).toContain("Set Closet to 6.4 cfm ");
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
    // larger than the rest: 0.8 · 300 = 240, S = 160 + 240, 240 · (520 / 400)^(240 / 400), by hand
    expect(advice.step).toMatchObject({ kind: "set branch", branch: "B", targetFlow: expect.closeTo(280.92, 2) });
    expect(advice.words).toContain(
      "Set branch B to a total of 281 cfm (94 % of design, about where it meets the key branch A",
    );
    const smaller = balanceAdvice(
      system([...outlets, outlet("c", 100, 80, { branch: "C" }), outlet("d", 100, 80, { branch: "D" })]),
    );
    expect(smaller.step).toEqual({ kind: "set branch", branch: "B", targetFlow: 240 });
    expect(smaller.words).toContain("Set branch B to a total of 240 cfm (80 % of design, as the key branch A");
  });

  it("keeps the open branch as key while a throttled branch reads lower, and opens that a little", () => {
    const outlets = [outlet("a", 100, 90, { branch: "A" }), outlet("b", 100, 80, { branch: "B" })];
    expect(balanceAdvice(system(outlets, { throttledBranches: ["B"] })).step).toMatchObject({
      kind: "set branch",
      branch: "B",
      // 90 · (170 / 180)^(90 / 180), by hand: opening B takes from A
      targetFlow: expect.closeTo(87.46, 2),
    });
  });

  it("raises the fan last, with a caution for its motor, and lowers it without", () => {
    const raise = balanceAdvice(system([outlet("a", 100, 92), outlet("b", 100, 92)]));
    expect(raise.step).toEqual({ kind: "set fan", targetFlow: 200 });
    expect(raise.words).toBe(
      "All outlets share in proportion at 92 % of design. Set the fan for a total of 200 cfm and read every outlet again. Check the motor current before speeding a fan up.",
    );
    const lower = balanceAdvice(system([outlet("a", 100, 120), outlet("b", 100, 120)]));
    expect(lower.step).toEqual({ kind: "set fan", targetFlow: 200 });
    expect(lower.words).not.toContain("motor");
  });

  it("asks no more of the fan than it gives, then reports what is missing", () => {
    const outlets = [outlet("a", 100, 80), outlet("b", 100, 80)];
    expect(balanceAdvice(system(outlets, { fanMaximumFlow: 180 })).step).toEqual({ kind: "set fan", targetFlow: 180 });
    const advice = balanceAdvice(system(outlets, { fanMaximumFlow: 160 }));
    expect(advice.step).toEqual({ kind: "report shortfall", ratio: 0.8 });
    expect(advice.words).toContain("the fan gives no more. Report the shortfall.");
  });

  it("refuses an empty system and a band upside down", () => {
    expect(() => balanceAdvice(system([]))).toThrow("outlets must be at least one value");
    expect(() =>
      balanceAdvice(system([outlet("a", 100, 90)], { limits: { minusPercent: 5, plusPercent: -1 } })),
    ).toThrow("plusPercent");
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
