import { describe, expect, it } from "vitest";
import { relativeForm } from "../../src/xlsx/index.js";

describe("the relative form of a formula", () => {
  it.each([
    ["A2*$B$1", "A3*$B$1"],
    ["SUM(A2:C2)+Rooms!$A2", "SUM(A3:C3)+Rooms!$A3"],
    ["SUM(B:B)+SUM($2:$2)", "SUM(B:B)+SUM($2:$2)"],
    ["SUM(1:2)", "SUM(2:3)"],
    ["SUM(Fl2!B2:B9)", "SUM(Fl2!B3:B10)"],
    ["SUM(Fl2:Fl9!B2)", "SUM(Fl2:Fl9!B3)"],
    ["Rooms[Q2]*A2", "Rooms[Q2]*A3"],
    ['IF(A2="B7","B7",\'A2 B3\'!A2)', 'IF(A3="B7","B7",\'A2 B3\'!A3)'],
  ])("is the same for %s in row 2 and %s in row 3", (upper, lower) => {
    expect(relativeForm(upper, 2, 4)).toBe(relativeForm(lower, 3, 4));
  });

  it.each([
    ["A2", "A2"],
    ["A$2", "A$3"],
    ["SUM(1:2)", "SUM(1:2)"],
    // Sheets, headings of a table, names and numbers that look like a cell, or end like one.
    ["Fl2!B2", "Fl3!B3"],
    ["SUM(Fl2:Fl9!B2)", "SUM(Fl3:Fl9!B3)"],
    ["SUM(Fl2:Roof!B2)", "SUM(Fl3:Roof!B3)"],
    ["SUM(Rooms[Q2])", "SUM(Rooms[Q3])"],
    ["SUM(Rooms[[#Data],[Q2]:[Q4]])", "SUM(Rooms[[#Data],[Q3]:[Q4]])"],
    ["\u00c9A2*2", "\u00c9A3*2"],
    ["Load.A2", "Load.A3"],
    ["A2?", "A3?"],
    ["1E2", "1E3"],
    ["LOG2(A2)", "LOG3(A3)"],
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
