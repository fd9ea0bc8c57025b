import { describe, expect, it } from "vitest";
import { callCell, column, expectCellError } from "./call-cell.js";

describe("UNCERTAINTY.AIRFLOW", () => {
  const plusMinus = (...values: unknown[]) => callCell("UNCERTAINTY.AIRFLOW", ...values);

  it("assumes what is left out or blank: ±28 % of a grille whose factor nobody published", () => {
    // limits over √3: 10 → 5.774, 20 → 11.547, 2 → 1.155; 5; √Σ² = 13.89, twice 27.78 (by hand)
    expect(plusMinus(150)).toBeCloseTo(0.27785 * 150, 2);
    expect(plusMinus(150, 0, "", null, 0)).toBe(plusMinus(150));
  });

  it("takes the percents of the data sheet, the maker and the tape", () => {
    // 8/√3 = 4.619, 10/√3 = 5.774, 1/√3 = 0.577, 1; √Σ² = 7.483, twice 14.97 % (by hand)
    expect(plusMinus(1000, 8, 10, 1, 1, 1001)).toBeCloseTo(149.7, 1);
  });

  it("leaves the factor out where a person types none, as in a duct", () => {
    // 8/√3, 2/√3 and 1: √Σ² = 4.865, twice 9.73 % (by hand)
    expect(plusMinus(1000, 8, "none", 2, 1, 1001)).toBeCloseTo(97.3, 1);
    expect(plusMinus(1000, 8, " None ", 2, 1, 9)).toBe(plusMinus(1000, 8, "none", 2, 1, 9));
  });

  it("widens the ± of a few repeats that rule the budget", () => {
    const many = plusMinus(1000, 1, "none", 1, 5, 1e6);
    const few = plusMinus(1000, 1, "none", 1, 5, 3);
    // √(4 · 2 / 3 + (4.53 · 5)²) = 22.71 over 2 · √(2 / 3 + 25) = 10.13, by hand
    expect((few as number) / (many as number)).toBeCloseTo(2.241, 3);
  });

  it("asks how many sweeps a repeat figure comes from: without the count it says nothing", () => {
    expectCellError(plusMinus(100, 3, "none", 1, 3), "#N/A", "repeats is missing beside repeat");
  });

  it("looks at the points: one point, four alike and four that differ are not the same", () => {
    // 27.78 % without points; one point 22 %: 2 · √(13.89² + 22²) = 52.0; four alike add nothing (by hand)
    expect(plusMinus(100, "", "", "", "", "", 1)).toBeCloseTo(52.04, 1);
    expect(plusMinus(100, "", "", "", "", "", 4, 0)).toBeCloseTo(27.78, 2);
    expect(plusMinus(100, "", "", "", "", "", 4, 90)).toBeGreaterThan(100);
    expectCellError(plusMinus(100, "", "", "", "", "", 4), "#N/A", "spread is missing beside points");
    expectCellError(plusMinus(100, "", "", "", "", "", 2.5, 3), "#VALUE!", "points must be");
  });

  it("gives a column for a column, leaves blank rows blank, and keeps an error in its own row", () => {
    const result = plusMinus(column(100, 0, "dead", 200), 8, column(10, 10, 10, "none"), 1, 1, 1001) as unknown[][];
    expect(result[0]?.[0]).toBeCloseTo(14.97, 2);
    expect(result[1]?.[0]).toBe("");
    expectCellError(result[2]?.[0], "#VALUE!", "airflow holds the text");
    expect(result[3]?.[0]).toBeLessThan(29.9);
  });

  it("names the argument that is wrong", () => {
    expectCellError(plusMinus(150, -3), "#VALUE!", "instrument must be 0 or more");
    expectCellError(plusMinus(150, 5, "unknown"), "#VALUE!", 'factor must be its ± in percent, or "none"');
    expectCellError(plusMinus(150, 5, -1), "#VALUE!", "factor must be 0 or more");
    expectCellError(plusMinus(150, 5, 10, -1), "#VALUE!", "area must be 0 or more");
    expectCellError(plusMinus(150, 5, 10, 2, -1, 5), "#VALUE!", "repeat must be 0 or more");
    expectCellError(plusMinus(150, 5, 10, 2, 1, 1), "#VALUE!", "repeats must be how many whole sweeps");
    expectCellError(plusMinus(150, 5, 10, 2, 1, 2.5), "#VALUE!", "repeats must be how many whole sweeps");
    expectCellError(plusMinus(150, "5 %"), "#VALUE!", "instrument holds the text");
  });
});

describe("UNCERTAINTY.BUDGET", () => {
  it("spills each part with its share and basis, their sum, and what rules it", () => {
    const table = callCell("UNCERTAINTY.BUDGET", 8) as unknown[][];
    expect(table.map(([name]) => name)).toEqual([
      "Part",
      "Factor",
      "Instrument",
      "Area",
      "Repeat",
      "Together",
      "± (95 %)",
    ]);
    expect(table.map((row) => row[3])).toEqual([
      "Basis",
      "assumed",
      "given",
      "assumed",
      "assumed",
      "root of the sum of squares",
      "± 26.9 % (95 %): most of the doubt comes from the assumed factor",
    ]);
    const shares = table.slice(1, 5).map((row) => row[2] as number);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 9);
    expect(table[5]?.[2]).toBe(100);
    for (const row of table) expect(row).toHaveLength(4);
  });

  it("has no factor row for a duct", () => {
    const table = callCell("UNCERTAINTY.BUDGET", 8, "none") as unknown[][];
    expect(table.flat()).not.toContain("Factor");
  });
});

describe("UNCERTAINTY.INSTRUMENT", () => {
  const instrument = (...values: unknown[]) => callCell("UNCERTAINTY.INSTRUMENT", ...values);

  it("gives the ± of ±(3 % + 20 fpm) in percent: 8 % at 400 fpm, 23 % at 100", () => {
    expect(instrument(column(400, 100, 0), 3, 20)).toEqual(column(8, 23, ""));
    expect(instrument(400, 3)).toBeCloseTo(3, 12);
    expect(instrument(400, null, 20)).toBe(5);
  });

  it("asks for the data sheet, and refuses what it cannot say", () => {
    expectCellError(instrument(400, 0, 0), "#N/A", "percent is missing");
    expectCellError(instrument(400, -3), "#VALUE!", "percent must be 0 or more");
    expectCellError(instrument(-400, 3), "#VALUE!", "velocity must be above 0");
  });
});

describe("UNCERTAINTY.REPEAT", () => {
  it("gives the uncertainty of the mean of whole sweeps", () => {
    // s = 10; 10 / √3 of 400 (by hand)
    expect(callCell("UNCERTAINTY.REPEAT", column(400, 410, 390))).toBeCloseTo(1.4434, 4);
    expect(callCell("UNCERTAINTY.REPEAT", column(400, 410, 390, 0), 3)).toBeCloseTo(1.4434, 4);
  });

  it("stays empty before the first, asks for a second, and refuses a result of 0", () => {
    expect(callCell("UNCERTAINTY.REPEAT", column(0, 0), 0)).toBe("");
    expectCellError(callCell("UNCERTAINTY.REPEAT", column(400, 0), 1), "#N/A", "Repeat the whole sweep");
    expectCellError(callCell("UNCERTAINTY.REPEAT", column(400, 0), 2), "#VALUE!", "repeats must be above 0");
    expectCellError(callCell("UNCERTAINTY.REPEAT", column(400, 0)), "#VALUE!", "COUNT");
  });
});

describe("CHANGE.PERCENT", () => {
  const change = (...values: unknown[]) => callCell("CHANGE.PERCENT", ...values);

  it("is of what it was before, in a column where columns are given", () => {
    expect(change(400, 500)).toBe(25);
    expect(change(column(400, 200), column(500, 150))).toEqual(column(25, -25));
  });

  it("stays empty until the second result is there, and needs its COUNT for a measured 0", () => {
    expect(change(400, 0)).toBe("");
    expect(change(400, "")).toBe("");
    expect(change(400, 0, 0)).toBe("");
    expect(change(400, 0, 1)).toBe(-100);
    expect(change(column(400, 300), column(0, 0), column(1, 0))).toEqual(column(-100, ""));
  });

  it("asks for what was before, and refuses text", () => {
    expectCellError(change(0, 500), "#N/A", "before is missing");
    expectCellError(change(-1, 500), "#VALUE!", "before must be above 0");
    expectCellError(change(400, "more"), "#VALUE!", "after holds the text");
  });
});

describe("UNCERTAINTY.PITOT", () => {
  const pitot = (...values: unknown[]) => callCell("UNCERTAINTY.PITOT", ...values);

  it("halves the gauge by the root and lets its zero rule at low pressures", () => {
    // 0.5 in.w.c., 2 % and no zero: 1 − √0.98 = 1.005 %; density 0.02 / 2, tube 0.01 (by hand)
    expect(pitot(0.5, 2, 1e-9, 0.02, 0.01)).toBeCloseTo(1.005, 2);
    expect(pitot(column(0.01, 0.01), 2, 0.005)).toBeCloseTo(30.77, 2);
    expect(pitot(249.08891 * 0.01, 2, 249.08891 * 0.005, null, null, null, "si")).toBeCloseTo(30.77, 2);
  });

  it("stays empty before the first pressure, and refuses pressures that cannot be", () => {
    expect(pitot(column(0, 0), 2, 0.005, 0, 0, 0)).toBe("");
    expectCellError(pitot(12), "#VALUE!", 'set units to "si"');
    expectCellError(pitot(0.1, -2), "#VALUE!", "percent must be 0 or more");
  });
});

describe("CHANGE.VERDICT", () => {
  const verdict = (...values: unknown[]) => callCell("CHANGE.VERDICT", ...values);

  it("says whether it changed, from a repeatability and the count that it comes from", () => {
    // 400 to 440 at 2 %: z = 40 / √(8² + 8.8²) = 3.36; k is 2.87 with five sweeps and 4.53 with three (by hand)
    expect(verdict(400, 440, 2, null, null, 5)).toBe("higher (5 and 5 sweeps: a change under 8.5 % would not show)");
    expect(verdict(440, 400, 2, null, null, 5)).toBe("lower (5 and 5 sweeps: a change under 7.8 % would not show)");
    expect(verdict(400, 440, 2, null, null, 3)).toMatch(/^no clear change \(3 and 3 sweeps/);
    expectCellError(verdict(400, 440, 2), "#N/A", "sweeps is missing beside the repeatability");
  });

  it("takes a repeatability of its own for each side", () => {
    // s = 3.46 % of three each: pooled, four degrees of freedom, k 2.87
    expect(verdict(400, 440, 2, null, null, 3, 2, 3)).toMatch(/^higher \(3 and 3 sweeps/);
  });

  it("adds by how much it is known once the full uncertainty is given", () => {
    // 40 / √(44² + 48.4²) = 0.61 (by hand)
    expect(verdict(400, 440, 2, 11, null, 5)).toMatch(/^higher .*; change 40 ± 65: too small to state$/);
  });

  it("without repeats says what one sweep each can tell", () => {
    expect(verdict(400, 440)).toBe(
      "no clear change (one sweep each, repeatability assumed: a change under 15 % would not show)",
    );
    expect(verdict(400, 440, 0, 0, 1, 3)).toBe(
      "higher (3 and 3 sweeps, repeatability assumed: a change under 8.6 % would not show)",
    );
  });

  it("gives a column for columns and stays empty until the second result is there", () => {
    expect(verdict(column(400, 400), column(440, 0), 2, 0, null, 5)).toEqual(
      column("higher (5 and 5 sweeps: a change under 8.5 % would not show)", ""),
    );
  });

  it("refuses negative percents and asks for what was before", () => {
    expectCellError(verdict(400, 440, -2, 0, null, 5), "#VALUE!", "repeatability must be above 0");
    expectCellError(verdict(400, 440, 2, -11, null, 5), "#VALUE!", "uncertainty must be above 0");
    expectCellError(verdict(400, 440, 2, 0, null, 1), "#VALUE!", "sweeps must be how many whole sweeps");
    expectCellError(verdict(0, 440, 2, 0, null, 5), "#N/A", "before is missing");
  });
});

describe("CHANGE.SWEEPS", () => {
  const sweeps = (...values: unknown[]) => callCell("CHANGE.SWEEPS", ...values);

  it("compares the sweeps themselves", () => {
    // s of 400, 410, 390 is 2.5 %, of 440, 450, 430 2.27 %; pooled 2.39 %, u 8.2, k of four 2.87: 5.9 % (by hand)
    expect(sweeps(column(400, 410, 390), column(440, 450, 430))).toBe(
      "higher (3 and 3 sweeps: a change under 5.9 % would not show)",
    );
    expect(sweeps(column(400, 410), column(405, 415))).toMatch(/^no clear change \(2 and 2 sweeps/);
  });

  it("counts a blank as no sweep, and one sweep each as one", () => {
    expect(sweeps(column(400, 0, 0), column(440, 0, 0), 1, 1)).toMatch(/^no clear change \(one sweep each/);
    expect(sweeps(column(400, 0), column(0, 0), 1, 0)).toBe("");
  });

  it("counts a sweep of 0 among the others, and an outlet that is dead after the work", () => {
    // s of 305, 315, 280, 0 is 66.86 % of 225; u 75.2 each, Welch with 6 degrees of freedom: k 2.52 · 106.4 = 268, 119 %
    const withZero = column(305, 315, 280, 0);
    expect(sweeps(withZero, withZero, 4, 4)).toMatch(/^no clear change \(4 and 4 sweeps: a change under 1\d\d % would/);
    expect(sweeps(column(400, 410, 390), column(0, 0, 0), 3, 3)).toMatch(/^lower \(3 and 3 sweeps/);
  });

  it("adds by how much it is known, and refuses sweeps that are none", () => {
    expect(sweeps(column(400, 410, 390), column(440, 450, 430), 3, 3, 11)).toMatch(/; change 40 ± 65: too small to s/);
    expectCellError(sweeps(column(400, -410), column(440, 450)), "#VALUE!", "before must hold sweeps of 0 or more");
  });

  it("rests on the assumed repeatability where sweeps are all alike: the last digit of the meter hides how they differ", () => {
    // 2 · 5 % · √(400² / 2 + 440² / 2) = 42 of 400: 11 % (by hand)
    expect(sweeps(column(400, 400), column(440, 440))).toBe(
      "no clear change (2 and 2 sweeps, all alike, repeatability assumed: a change under 11 % would not show)",
    );
    expect(sweeps(column(0.1, 0.1, 0.1), column(0.2, 0.2, 0.2))).toMatch(/^higher \(3 and 3 sweeps, all alike/);
  });
});
