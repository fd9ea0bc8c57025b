import { describe, expect, it } from "vitest";
import { CellError, cellFunctions } from "../../src/cells/index.js";
import { callCell, expectCellError } from "./call-cell.js";

function call(id: string, ...values: unknown[]): unknown {
  const declaration = cellFunctions.find((candidate) => candidate.id === id);
  if (declaration === undefined) throw new Error(`there is no function ${id}`);
  try {
    return declaration.call(...values);
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}

const points = (...values: unknown[]) => call("TRAVERSE.POINTS", ...values);
const depths = (...values: unknown[]) => call("TRAVERSE.DEPTHS", ...values);
const column = (block: unknown) => (block as readonly (readonly unknown[])[]).map(([cell]) => cell);

function expectError(result: unknown, code: string, part: string) {
  expect(result).toBeInstanceOf(CellError);
  const { code: actualCode, message } = result as CellError;
  expect(actualCode).toBe(code);
  expect(message).toContain(part);
}

describe("TRAVERSE.POINTS", () => {
  it("takes a size without a height for a diameter, and a blank rule for the one that errs least", () => {
    for (const blank of [null, undefined, 0, ""]) {
      expect(points(12, blank, blank)).toEqual([[24]]);
      expect(points(24, 12, blank, blank)).toEqual([[25]]);
    }
  });

  it("knows the rules however they are written", () => {
    for (const name of ["equal area", "Equal-Area", "EQUALAREA"]) expect(points(12, null, name)).toEqual([[20]]);
    for (const name of ["log-linear", "Log Linear"]) expect(points(10, null, name)).toEqual([[18]]);
    for (const name of ["log-Tchebycheff", "log Chebyshev"]) expect(points(24, 12, name)).toEqual([[25]]);
    for (const name of ["Method 1", "method1"]) expect(points(12, null, name)).toEqual([[8]]);
  });

  it("gives the lines and the points on one of them", () => {
    expect(points(32, 20, "log-Tchebycheff", "total")).toEqual([[30]]);
    expect(points(32, 20, "log-Tchebycheff", "lines")).toEqual([[5]]);
    expect(points(32, 20, "log-Tchebycheff", "line")).toEqual([[6]]);
  });

  it("reads millimeters", () => {
    expect(points(609.6, null, "Method 1", null, "si")).toEqual([[8]]);
    expect(points(620, null, "Method 1", null, "si")).toEqual([[12]]);
  });

  it("takes columns of ducts, and keeps an empty row empty and each error in its own cell", () => {
    const result = points([[12], [24], [0], ["wide"]], [[0], [12], [0], [0]]) as readonly (readonly unknown[])[];
    expect(result.slice(0, 3)).toEqual([[24], [25], [""]]);
    expectError(result[3]?.[0], "#VALUE!", "width holds the text “wide”");
  });

  it("says what is missing or wrong", () => {
    expect(points(null, null)).toEqual([[""]]);
    expectError(points(0, 12), "#N/A", "width is missing");
    expectError(points(-12, null), "#VALUE!", "diameter must be above 0.");
    expectError(points(24, -12), "#VALUE!", "height must be above 0.");
    expectError(points(24, 12, "log-linear"), "#VALUE!", "for a rectangular duct");
    expectError(points(24, 12, "tangential"), "#VALUE!", 'rule must be "equal area", "log-linear"');
    expectError(points(24, 12, "constructor"), "#VALUE!", "rule must be");
    expectError(points(24, 12, null, "holes"), "#VALUE!", 'part must be "total", "lines"');
    expectError(points(3, null, "Method 1"), "#VALUE!", "diameter must be 4 in (102 mm) or more for Method 1A");
    expectError(points(400, 2, "equal area"), "#VALUE!", "width must be from 1/96 to 96 times the height");
    expectError(points(24, 12, null, null, "metric"), "#VALUE!", "units must be");
    expectError(points(24, 12, new CellError("#REF!", "")), "#REF!", "rule is in error");
  });
});

describe("TRAVERSE.DEPTHS", () => {
  it("spills a column: the fractions of ISO 5802 on a 10 in duct behind 1 in of wall", () => {
    // 0.032, 0.135, 0.321 of 10 in, and their mirror images
    const spilled = column(depths(10, null, 6, "log-linear", 1)) as readonly number[];
    for (const [index, depth] of [1.32, 2.35, 4.21, 7.79, 9.65, 10.68].entries()) {
      expect(Math.abs((spilled[index] ?? 0) - depth)).toBeLessThanOrEqual(0.005);
    }
    expect(spilled).toHaveLength(6);
  });

  it("takes the usual number of points where none is given", () => {
    expect(depths(12)).toHaveLength(8);
    expect(depths(32, 20)).toHaveLength(6);
    expect(depths(32, 20, null, "equal area")).toHaveLength(6);
    expect(depths(30, null, null, "Method 1")).toHaveLength(6);
  });

  it("gives the places of the holes with width and height swapped", () => {
    expect(depths(18, 24, 4, "equal area")).toEqual([[2.25], [6.75], [11.25], [15.75]]);
  });

  it("moves points of equal area off the wall, and leaves those of the log rules where they belong", () => {
    expect(column(depths(6, null, 10, "equal area")).slice(0, 2)).toEqual([0.5, 0.5]);
    expect(Number(column(depths(6, null, 10, "log-linear"))[0])).toBeCloseTo(0.113, 3);
  });

  it("reads as a tape does, in eighths and in millimeters", () => {
    // 20 in, equal area, 10 points: 0.51, 1.63, 2.93, 4.52, 6.84 in and their mirror images
    const onTape = ["1/2", "1 5/8", "2 7/8", "4 1/2", "6 7/8", "13 1/8", "15 1/2", "17 1/8", "18 3/8", "19 1/2"];
    expect(column(depths(20, null, 10, "equal area", null, true))).toEqual(onTape);
    expect(column(depths(20, null, 10, "equal area", null, 1))).toEqual(onTape);
    expect(column(depths(400, 200, 4, "equal area", 25, true, "si"))).toEqual(["75", "175", "275", "375"]);
  });

  it("gives millimeters as numbers", () => {
    const spilled = column(depths(400, 200, 4, "equal area", 25, false, "si")) as readonly number[];
    for (const [index, depth] of [75, 175, 275, 375].entries()) expect(spilled[index]).toBeCloseTo(depth, 9);
  });

  it("stays empty until a size is there, and says what is missing or wrong", () => {
    expect(depths(0, 0)).toEqual([[""]]);
    expectError(depths(0, 12), "#N/A", "width is missing");
    expectError(depths("12 to 14"), "#VALUE!", "width holds the text “12 to 14”");
    expectError(depths(24, 12, 10), "#VALUE!", "points must be 3 to 9 or 11 for log-Tchebycheff");
    expectError(depths(12, null, 7), "#VALUE!", "points must be an even number from 4 to 200.");
    expectError(depths(12, null, 6, "log-linear", -1), "#VALUE!", "wall must be 0 or more.");
    expectError(depths(12, null, 6, "log-linear", "steel"), "#VALUE!", "wall holds the text");
    expectError(depths(12, null, 6, "log-linear", 1, "yes"), "#VALUE!", "tape must be TRUE or FALSE.");
    expectError(depths(12, null, 6, "log-linear", 1, new CellError("#REF!", "")), "#REF!", "tape is in error");
    expectError(depths(0.8, null, 2, "equal area"), "#VALUE!", "diameter must be 1 in (25.4 mm) or more");
  });
});

describe("TRAVERSE.SITE", () => {
  it("says whether a place is good, usable or too near, and which tube a small duct takes", () => {
    // 16 in across: 8 diameters are 10.67 ft, 2 are 2.67 ft.
    expect(callCell("TRAVERSE.SITE", 24, 12, 10.7, 2.7)).toMatch(/^good: 8\.0 diameters downstream/);
    expect(callCell("TRAVERSE.SITE", 24, 12, 10.6, 2.7)).toMatch(/^usable: 7\.9 /);
    expect(callCell("TRAVERSE.SITE", 250, null, 0.4, 1, "si")).toMatch(
      /^too near: 1\.6 .*1\/8 in standard Pitot tube$/,
    );
    expect(callCell("TRAVERSE.SITE", "", "", "", "")).toBe("");
    expectCellError(callCell("TRAVERSE.SITE", 12, null, 0, 2), "#N/A", "upstream is missing");
    expectCellError(callCell("TRAVERSE.SITE", 12, null, -1, 2), "#VALUE!", "fromUpstream must be 0 or more");
  });
});

describe("TRAVERSE.ANGLE", () => {
  it("averages the angles without their signs, zeros by their count", () => {
    expect(callCell("TRAVERSE.ANGLE", [[10], [-20], [0], [6]], 4)).toBe("suitable: average angle 9.0°, 20° allowed");
    expect(callCell("TRAVERSE.ANGLE", [[30], [-25], [0]], 2)).toMatch(/^swirling: average angle 27\.5°/);
    expectCellError(callCell("TRAVERSE.ANGLE", [[10], [0]]), "#VALUE!", "taken = COUNT");
    expectCellError(callCell("TRAVERSE.ANGLE", [[100]]), "#VALUE!", "angles must be from -90 to 90");
  });
});

describe("TRAVERSE.OVAL", () => {
  it("gives a row for each hole, and is a tape's text where asked", () => {
    const plan = callCell("TRAVERSE.OVAL", 24, 12, 4, 3) as number[][];
    expect(plan.map((row) => row.length)).toEqual([4, 4, 4, 4]);
    expect(plan[1]?.[1]).toBeCloseTo(2, 9);
    expect((callCell("TRAVERSE.OVAL", 24, 12, 2, 1, 0.5, true) as unknown[][])[0]?.[1]).toEqual(expect.any(String));
    expectCellError(callCell("TRAVERSE.OVAL", 10, 12), "#VALUE!", "major must be");
    expectCellError(callCell("TRAVERSE.OVAL", 24, 0), "#N/A", "minor is missing");
  });
});

describe("the rule ST-18", () => {
  it("keeps every point 1 in off the wall in a small duct too", () => {
    const depths = callCell("TRAVERSE.DEPTHS", 12, null, 6, "ST-18") as number[][];
    expect([depths[0]?.[0], depths[5]?.[0]]).toEqual([1, 11]);
  });
});
