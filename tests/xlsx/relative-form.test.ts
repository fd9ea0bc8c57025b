import { describe, expect, it } from "vitest";
import { relativeForm } from "../../src/xlsx/index.js";

describe("the relative form of a formula", () => {
  it.each([
    ["A2*$B$1", "A3*$B$1"],
    ["SUM(A2:C2)+Rooms!$A2", "SUM(A3:C3)+Rooms!$A3"],
    ["SUM(B:B)+SUM($2:$2)", "SUM(B:B)+SUM($2:$2)"],
    ["SUM(1:2)", "SUM(2:3)"],
    ['IF(A2="B7","B7",\'A2 B3\'!A2)', 'IF(A3="B7","B7",\'A2 B3\'!A3)'],
  ])("is the same for %s in row 2 and %s in row 3", (upper, lower) => {
    expect(relativeForm(upper, 2, 4)).toBe(relativeForm(lower, 3, 4));
  });

  it.each([
    ["A2", "A2"],
    ["A$2", "A$3"],
    ["SUM(1:2)", "SUM(1:2)"],
    ['"A2"&A2', '"A3"&A3'],
  ])("differs for %s in row 2 and %s in row 3", (upper, lower) => {
    expect(relativeForm(upper, 2, 4)).not.toBe(relativeForm(lower, 3, 4));
  });

  it("tells the same whole column in two columns apart, which is another one seen from each", () => {
    expect(relativeForm("SUM(B:B)", 1, 3)).not.toBe(relativeForm("SUM(B:B)", 1, 4));
    expect(relativeForm("SUM(B:B)", 1, 3)).toBe(relativeForm("SUM(C:C)", 1, 4));
    expect(relativeForm("SUM($B:$B)", 1, 3)).toBe(relativeForm("SUM($B:$B)", 1, 4));
  });
});
