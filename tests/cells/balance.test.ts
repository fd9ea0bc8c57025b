import { describe, expect, it } from "vitest";
import { callCell, column, expectCellError } from "./call-cell.js";

const measured = column(140, 165, 96, 72);
const design = column(100, 150, 120, 80);
const none = null;

describe("a sheet of four outlets", () => {
  it("has its ratios, key, order, first target and common ratio in one call each (derived by hand)", () => {
    expect(callCell("BALANCE.RATIO", measured, design)).toEqual(column(1.4, 1.1, 0.8, 0.9));
    expect(callCell("BALANCE.KEY", measured, design)).toEqual(column("", "", "key", ""));
    expect(callCell("BALANCE.ORDER", measured, design)).toEqual(column(4, 3, 1, 2));
    // Study is near enough. Den: aim √(0.8 · 0.9) · 150 = 127.28, shared (473 − 165 + 127.28) / 473 = 0.9203,
    // √(1.7 / (1 + 0.7 · 0.9203²)) = 1.0331
    const targets = callCell("BALANCE.TARGET", measured, design) as unknown[][];
    expect(targets.flat()).toEqual(["", expect.closeTo(131.49, 2), "", ""]);
    expect(callCell("BALANCE.COMMON", measured, design)).toBeCloseTo(473 / 450, 12);
  });

  it("may lie in a row as well", () => {
    expect(callCell("BALANCE.ORDER", [[140, 165, 96, 72]], [[100, 150, 120, 80]])).toEqual([[4, 3, 1, 2]]);
  });

  it("is advised with the names of the sheet", () => {
    const names = column("Hall", "Den", "Bath", "Study");
    expect(callCell("BALANCE.ADVICE", measured, design, names)).toBe(
      "Set Den to 131: 88 % of design, to match key outlet Bath; leave Bath fully open. Then read Den and Bath again.",
    );
  });

  it("keeps the open key while a throttled outlet reads lower", () => {
    const later = column(141, 166, 97, 58);
    const throttled = column("", "open", false, "throttled");
    expect(callCell("BALANCE.KEY", later, design, none, throttled)).toEqual(column("", "", "key", ""));
    // Study is not far enough below the key to be opened; Den is the next to match it.
    const targets = callCell("BALANCE.TARGET", later, design, none, throttled) as unknown[][];
    expect(targets.flat()).toEqual(["", expect.closeTo(126.1, 1), "", ""]);
  });

  it("asks again for what was read before the last change, and is not done before", () => {
    const [read, planned, names] = [column(100, 121), column(100, 120), column("S1", "S2")];
    const advice = (order: unknown, changes: unknown) =>
      callCell("BALANCE.ADVICE", read, planned, names, none, none, none, none, 10, 10, none, order, changes);
    expect(advice(none, none)).toMatch(/^Every outlet is within limits/);
    expect(advice(column(2, 1), 2)).toBe("Read again: S2. A damper was set since they were read.");
    expect(advice(column(2, 2), 2)).toMatch(/^Every outlet is within limits/);
    expect(advice(column("", "Old"), none)).toBe("Read again: S2. A damper was set since they were read.");
    expectCellError(advice(column(3, 1), 2), "#VALUE!", "order of S1 is 3, but changes is 2");
  });
});

describe("blank rows and missing readings", () => {
  it("stay blank, and no reading is never zero", () => {
    const some = column(140, 0, 0, 72);
    const planned = column(100, 0, 120, 80);
    expect(callCell("BALANCE.RATIO", some, planned)).toEqual(column(1.4, "", "", 0.9));
    expect(callCell("BALANCE.ORDER", some, planned)).toEqual(column(2, "", "", 1));
    expect(callCell("BALANCE.COMMON", some, planned)).toBeCloseTo(212 / 180, 12);
  });

  it("hold back key and target of a branch until all of its outlets were read", () => {
    const some = column(140, 0, 130, 100);
    const planned = column(100, 120, 100, 100);
    const branch = column("A", "A", "B", "B");
    expect(callCell("BALANCE.KEY", some, planned, branch)).toEqual(column("", "", "", "key"));
    // shared (230 − 130 + 100) / 230 = 0.8696, √(1.7 / (1 + 0.7 · 0.8696²)) = 1.0543, by hand
    const targets = callCell("BALANCE.TARGET", some, planned, branch) as unknown[][];
    expect(targets.flat()).toEqual(["", "", expect.closeTo(105.43, 2), ""]);
  });

  it("are named by the advice, and no low outlet is judged meanwhile", () => {
    const some = column(60, 0);
    expect(callCell("BALANCE.ADVICE", some, column(100, 80), column("Hall", "Bath"))).toContain("Read Bath first");
    expect(callCell("BALANCE.ADVICE", some, column(100, 80))).toContain("Read outlet 2 first");
    expect(callCell("BALANCE.LOW", some, column(100, 80))).toEqual(column("", ""));
  });

  it("leave everything blank in a sheet that nobody has begun", () => {
    const blank = column(0, null, "");
    for (const id of ["RATIO", "KEY", "ORDER", "TARGET", "LOW"]) {
      expect(callCell(`BALANCE.${id}`, blank, blank)).toEqual(column("", "", ""));
    }
    expect(callCell("BALANCE.COMMON", blank, blank)).toBe("");
    expect(callCell("BALANCE.ADVICE", blank, blank)).toBe("");
    expect(callCell("BALANCE.COMMON", blank, column(100, 100, 100))).toBe("");
  });

  it("are told from a dead outlet by taken", () => {
    const dead = column(140, 0);
    const planned = column(100, 120);
    expect(callCell("BALANCE.RATIO", dead, planned, 2)).toEqual(column(1.4, 0));
    expect(callCell("BALANCE.RATIO", dead, planned, 1)).toEqual(column(1.4, ""));
    expect(callCell("BALANCE.ADVICE", dead, planned, none, none, none, none, none, none, none, 2)).toContain(
      "outlet 2 gets no air",
    );
    expectCellError(
      callCell("BALANCE.RATIO", column(140, 0, 0), column(100, 120, 80), 2),
      "#VALUE!",
      "which of them were measured cannot be told",
    );
  });
});

describe("advice in a sheet", () => {
  const [planned, tags] = [column(100, 100, 100), column("S1", "S2", "S3")];
  const advice = (measured: unknown, more: readonly unknown[], taken = 3) =>
    callCell("BALANCE.ADVICE", measured, planned, tags, none, none, none, none, none, none, taken, ...more);

  it("says that no outlet gets any air, and does not look for a blockage at each", () => {
    expect(advice(column(0, 0, 0), [])).toMatch(/^No outlet gets any air\. Look whether the fan runs/);
    expect(advice(column(90, -5, 0), [])).toMatch(/^S2, S3 get no air or reverse flow/);
    expect(advice(column(90, 110, 0), [])).toMatch(/^S3 gets no air or reverse flow/);
  });

  it("says what to do with an outlet that nobody can read, once most are read", () => {
    expect(advice(column(90, 110, 0), [], 2)).toBe(
      "Read S3 first. It has no reading. Where nobody can read it, take its row out of the balance and report it.",
    );
    expect(advice(column(90, 0, 0), [], 1)).toBe("Read S2, S3 first.");
  });

  it("asks for an average where readings scatter, and stops once it is told of it", () => {
    const near = column(91, 108, 111);
    const of = (count: number | null) => [none, none, 8, none, count === null ? none : column(count, count, count)];
    expect(advice(near, of(null))).toMatch(/^Read again: S1, S2, S3\. Use the average of all readings, 16 at most/);
    expect(advice(near, of(16))).toMatch(/^Stop here\. S3 \(111 %\): outside limits by less than readings repeat/);
    expectCellError(advice(near, of(0.5)), "#VALUE!", "averaged of S1 must be how many readings were averaged");
  });
});

describe("a faulty row", () => {
  it("shows its error in its own cell and leaves the others to be balanced", () => {
    const result = callCell("BALANCE.ORDER", column(140, 165, 96), column(100, "tbd", 120)) as unknown[][];
    expect([result[0]?.[0], result[2]?.[0]]).toEqual([2, 1]);
    expectCellError(result[1]?.[0], "#VALUE!", "design of outlet 2 holds the text");
  });

  it("stops a result that needs every row, and is named there", () => {
    expectCellError(
      callCell("BALANCE.COMMON", column(140, 165), column(100, 0)),
      "#N/A",
      "design of outlet 2 is missing",
    );
    expectCellError(
      callCell("BALANCE.ADVICE", column(140, "x"), column(100, 80), column("Hall", "Bath")),
      "#VALUE!",
      "measured of Bath holds the text",
    );
    expectCellError(
      callCell("BALANCE.COMMON", column(140), column(-100)),
      "#VALUE!",
      "design of outlet 1 must be above 0",
    );
  });

  it("is one whose damper nobody understands", () => {
    const result = callCell("BALANCE.KEY", column(140, 96), column(100, 120), none, column("half", "")) as unknown[][];
    expectCellError(result[0]?.[0], "#VALUE!", "throttled of outlet 1 must be TRUE or FALSE");
  });
});

describe("branches", () => {
  const branch = column("North", "North", "South", "South");

  it("have a key and a target each, and an order from the one that gets most", () => {
    const planned = column(100, 100, 100, 100);
    const read = column(70, 90, 120, 150);
    expect(callCell("BALANCE.KEY", read, planned, branch)).toEqual(column("key", "", "key", ""));
    // √(1.7 / (1 + 0.7 · 0.875²)) · 70 and √(1.7 / (1 + 0.7 · 0.8889²)) · 120, by hand
    const targets = callCell("BALANCE.TARGET", read, planned, branch) as unknown[][];
    expect(targets.flat()).toEqual(["", expect.closeTo(73.64, 2), "", expect.closeTo(125.55, 2)]);
    expect(callCell("BALANCE.ORDER", read, planned, branch)).toEqual(column(3, 4, 1, 2));
  });

  it("are set against each other once each is in proportion", () => {
    const advice = (throttledBranches: unknown) =>
      callCell(
        "BALANCE.ADVICE",
        column(80, 80, 120, 120),
        column(100, 100, 100, 100),
        none,
        branch,
        none,
        throttledBranches,
      );
    expect(advice(none)).toContain("Set branch South to a total of 173: 87 % of design, to match key branch North.");
    // 160 of 200 and 240 of 200: at the same total both meet at 400 of 400.
    expect(advice([["North"]])).toContain(
      "Set branch North to a total of 200: 100 % of design, to match key branch South.",
    );
  });
});

describe("BALANCE.LOW", () => {
  it("names who cannot be raised by a damper, and why", () => {
    const low = (...values: unknown[]) =>
      (callCell("BALANCE.LOW", ...values) as string[][]).map(([cell]) => cell?.split(":")[0]);
    expect(low(measured, design)).toEqual(["", "", "others", ""]);
    expect(low(measured, design, none, none, none, 5)).toEqual(["", "", "others", "others"]);
    expect(low(column(80, 84), column(100, 120))).toEqual(["fan", "fan"]);
    expect(low(column(80, 84), column(100, 120), none, none, 170)).toEqual(["design", "design"]);
    expect(low(column(100, 40), column(100, 100))).toEqual(["", "duct"]);
    expect(low(column(80, 84), column(100, 120), none, column(true, "x"))).toEqual(["", ""]);
  });
});

describe("the arguments of the balance functions", () => {
  it("must be of one length", () => {
    expectCellError(
      callCell("BALANCE.RATIO", measured, column(100, 150)),
      "#VALUE!",
      "design has 2 cells, but measured has 4",
    );
    expectCellError(callCell("BALANCE.KEY", measured, design, column("A")), "#VALUE!", "branch has 1 cells");
  });

  it("may repeat a name: rooms are told apart by their place", () => {
    expect(callCell("BALANCE.ORDER", measured, design, column("A", "A", "A", "A"))).toEqual(column(4, 3, 1, 2));
  });

  it("must leave a band to aim for", () => {
    const target = (minus: unknown, plus: unknown) =>
      callCell("BALANCE.TARGET", measured, design, none, none, minus, plus);
    expectCellError(target(0, 0), "#VALUE!", "minus and plus are both 0 or blank");
    expectCellError(target(100, 10), "#VALUE!", "minus must be from 0 to below 100");
    expectCellError(target(-5, 10), "#VALUE!", "minus must be from 0 to below 100");
    expectCellError(target(5, -10), "#VALUE!", "plus must be 0 or more");
  });

  it("let a fan be known or not, but not below 0", () => {
    expectCellError(callCell("BALANCE.LOW", measured, design, none, none, -1), "#VALUE!", "fanMost must be above 0");
  });

  it("take 2,000 outlets in one call", () => {
    const many = Array.from({ length: 2000 }, (_, i) => [50 + (i % 97)]);
    const planned = Array.from({ length: 2000 }, () => [100]);
    const branches = Array.from({ length: 2000 }, (_, i) => [`Branch ${i % 40}`]);
    expect((callCell("BALANCE.ORDER", many, planned, branches) as unknown[][]).flat().sort()).toHaveLength(2000);
    expect((callCell("BALANCE.KEY", many, planned, branches) as unknown[][]).flat().filter(Boolean)).toHaveLength(40);
  });
});
