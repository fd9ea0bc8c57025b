import { describe, expect, it } from "vitest";
import { callCell, column, expectCellError } from "./call-cell.js";

describe("UNCERTAINTY.AIRFLOW", () => {
  const plusMinus = (...values: unknown[]) => callCell("UNCERTAINTY.AIRFLOW", ...values);

  it("assumes what is left out or blank: ±26 % of a face whose factor nobody published", () => {
    // limits over √3: 10 → 5.774, 20 → 11.547, 2 → 1.155; 5 / 2 = 2.5; √Σ² = 13.20, twice 26.40 (by hand)
    expect(plusMinus(150)).toBeCloseTo(0.264 * 150, 1);
    expect(plusMinus(150, 0, "", null, 0)).toBe(plusMinus(150));
  });

  it("takes the percents of the data sheet, the maker and the tape", () => {
    // 8/√3 = 4.619, 10/√3 = 5.774, 1/√3 = 0.577, 1; √Σ² = 7.483, twice 14.97 % (by hand)
    expect(plusMinus(1000, 8, 10, 1, 1)).toBeCloseTo(149.7, 1);
  });

  it("leaves the factor out where a person types none, as in a duct", () => {
    // 8/√3, 2/√3 and 1: √Σ² = 4.865, twice 9.73 % (by hand)
    expect(plusMinus(1000, 8, "none", 2, 1)).toBeCloseTo(97.3, 1);
    expect(plusMinus(1000, 8, " None ", 2, 1)).toBe(plusMinus(1000, 8, "none", 2, 1));
  });

  it("widens the ± of a few repeats that rule the budget", () => {
    const many = plusMinus(1000, 1, "none", 1, 5);
    const few = plusMinus(1000, 1, "none", 1, 5, 3);
    // k of two degrees of freedom is 4.53 instead of 2
    expect((few as number) / (many as number)).toBeCloseTo(4.53 / 2, 10);
  });

  it("gives a column for a column, leaves blank rows blank, and keeps an error in its own row", () => {
    const result = plusMinus(column(100, 0, "dead", 200), 8, column(10, 10, 10, "none"), 1, 1) as unknown[][];
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
    expectCellError(plusMinus(150, 5, 10, 2, -1), "#VALUE!", "repeat must be 0 or more");
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
      "± (k = 2)",
    ]);
    expect(table.map((row) => row[3])).toEqual([
      "Basis",
      "assumed",
      "given",
      "assumed",
      "assumed",
      "root of the sum of squares",
      "±25.5 % at about 95 %: the assumed factor dominates (82 % of the variance)",
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

describe("CHANGE.VERDICT", () => {
  const verdict = (...values: unknown[]) => callCell("CHANGE.VERDICT", ...values);

  it("says whether it changed, by repeatability", () => {
    // 40 / √(8² + 8.8²) = 3.36; 10 / √(8² + 8.2²) = 0.87 (by hand)
    expect(verdict(400, 440, 2)).toBe("higher (repeatability: z 3.4)");
    expect(verdict(440, 400, 2)).toBe("lower (repeatability: z 3.4)");
    expect(verdict(400, 410, 2)).toBe("no change shown (repeatability: z 0.9)");
  });

  it("adds by how much it is known once the full uncertainty is given", () => {
    // 40 / √(44² + 48.4²) = 0.61 (by hand)
    expect(verdict(400, 440, 2, 11)).toBe(
      "higher (repeatability: z 3.4); amount not known better than 40 ±65 (full uncertainty: En 0.61)",
    );
  });

  it("says when the repeatability was assumed", () => {
    expect(verdict(400, 440)).toBe("higher (repeatability: z 2.7); repeatability of 2.5 % assumed");
  });

  it("gives a column for columns and stays empty until the second result is there", () => {
    expect(verdict(column(400, 400), column(440, 0), 2)).toEqual(column("higher (repeatability: z 3.4)", ""));
  });

  it("refuses negative percents and asks for what was before", () => {
    expectCellError(verdict(400, 440, -2), "#VALUE!", "repeatability must be above 0");
    expectCellError(verdict(400, 440, 2, -11), "#VALUE!", "uncertainty must be above 0");
    expectCellError(verdict(0, 440, 2), "#N/A", "before is missing");
  });
});
