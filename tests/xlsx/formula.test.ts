import { describe, expect, it } from "vitest";
import {
  callsFunction,
  columnLetters,
  formatAddress,
  moveFormula,
  parseAddress,
  parseRange,
  readableFormula,
  scanFormula,
  storedFormula,
} from "../../src/xlsx/index.js";

const FUNCTIONS = ["AIRFLOW", "AIRFLOW.FACE", "OPENING.RECT"].map((id) => ({
  typed: `VANE.${id}`,
  stored: `_xldudf_VANE_${id.replaceAll(".", "_")}`,
}));

describe("addresses", () => {
  it.each([
    ["A1", 1, 1],
    ["$B$7", 7, 2],
    ["z9", 9, 26],
    ["AA10", 10, 27],
    ["XFD1048576", 1_048_576, 16_384],
  ])("reads %s", (address, row, column) => {
    expect(parseAddress(address)).toEqual({ row, column });
  });

  it.each(["", "A", "7", "A0", "XFE1", "A1048577", "A1:B2", "A-1", "A1 ", "AAAA1", "[1", "@1", "R1C1"])(
    "takes %j for no address",
    (address) => {
      expect(parseAddress(address)).toBeUndefined();
    },
  );

  it("spells every column as it reads it", () => {
    for (let column = 1; column <= 16_384; column += 1) {
      expect(parseAddress(formatAddress(5, column))).toEqual({ row: 5, column });
    }
    expect(columnLetters(16_384)).toBe("XFD");
  });

  it("reads a range with its corners in any order", () => {
    expect(parseRange("C9:A1")).toEqual({ firstRow: 1, firstColumn: 1, lastRow: 9, lastColumn: 3 });
    expect(parseRange("A:C")).toBeUndefined();
  });
});

describe("moving a formula", () => {
  it.each([
    ["A1+$A1+A$1+$A$1", "B3+$A3+B$1+$A$1"],
    ['"A1 said ""A1"""&A1', '"A1 said ""A1"""&B3'],
    ["'A1 sheet'!A1+Data.A1!A1", "'A1 sheet'!B3+Data.A1!B3"],
    ["'It''s A1'!A1", "'It''s A1'!B3"],
    ["Fl2!A1+SUM(Fl2:Fl9!A1)+SUM(Fl2:Roof!A1:A2)", "Fl2!B3+SUM(Fl2:Fl9!B3)+SUM(Fl2:Roof!B3:B4)"],
    ["LOG10(A1)+A1B+_xldudf_VANE_A1(A1)", "LOG10(B3)+A1B+_xldudf_VANE_A1(B3)"],
    ["Rooms[[#This Row],[A1 '[x]]]+A1", "Rooms[[#This Row],[A1 '[x]]]+B3"],
    ["[1]Sheet1!A1", "[1]Sheet1!B3"],
    ["SUM(A:$B)+SUM(1:$2)", "SUM(B:$B)+SUM(3:$2)"],
    ["SUM(A1:C3)", "SUM(B3:D5)"],
    ["1E5+XFE1+A1048577", "1E5+XFE1+A1048577"],
    ["IF(A1>0,#N/A,#REF!)", "IF(B3>0,#N/A,#REF!)"],
    ["Jan:Mar!A1", "Jan:Mar!B3"],
  ])("moves %s two rows down and one column right", (before, after) => {
    expect(moveFormula(before, 2, 1)).toBe(after);
  });

  it("makes what would leave the sheet a reference error", () => {
    expect(moveFormula("A1+B2", -1, 0)).toBe("#REF!+B1");
    expect(moveFormula("XFD1", 0, 1)).toBe("#REF!");
    expect(moveFormula("A:A", 0, -1)).toBe("#REF!");
  });

  it("cuts any formula into pieces that join to the same text", () => {
    for (const formula of ['"open', "'open", "[open", "A1#", "Ä1+日本!A1", "{1,2;3,4}", "a😀b", "--A1%^2"]) {
      const joined = scanFormula(formula).map(({ text }) => text);
      expect(joined.join("")).toBe(formula);
    }
  });
});

describe("spelling a formula", () => {
  it.each([
    ["_xldudf_VANE_AIRFLOW_FACE(A1,B1)", "VANE.AIRFLOW.FACE(A1,B1)"],
    ["_xldudf_VANE_AIRFLOW(A1,_xldudf_VANE_OPENING_RECT(B1,C1))", "VANE.AIRFLOW(A1,VANE.OPENING.RECT(B1,C1))"],
    ["_xlfn.STDEV.S(A1:A9)", "STDEV.S(A1:A9)"],
    ["_xlfn._xlws.FILTER(A1:A9,B1:B9)", "FILTER(A1:A9,B1:B9)"],
  ])("reads %s as %s and writes it back", (stored, readable) => {
    expect(readableFormula(stored, FUNCTIONS)).toBe(readable);
    expect(storedFormula(readable, FUNCTIONS)).toBe(stored);
  });

  it("drops the mark of a bound name", () => {
    expect(readableFormula("_xlfn.LET(_xlpm.x,A1,_xlpm.x*2)", FUNCTIONS)).toBe("LET(x,A1,x*2)");
  });

  it("leaves text, unknown add-in functions and names without a bracket alone", () => {
    const formula = '"_xldudf_VANE_AIRFLOW("&_xldudf_OTHER_F(A1)&"VANE.AIRFLOW("';
    expect(readableFormula(formula, FUNCTIONS)).toBe(formula);
    expect(storedFormula("SHEET+VANE.AIRFLOW+VANE.NEW(A1)", FUNCTIONS)).toBe("SHEET+VANE.AIRFLOW+VANE.NEW(A1)");
  });

  it("finds calls in both spellings, in any case, and not in text", () => {
    expect(callsFunction("1+_xldudf_VANE_AIRFLOW(A1,B1)", FUNCTIONS)).toBe(true);
    expect(callsFunction("vane.airflow(A1,B1)", FUNCTIONS)).toBe(true);
    expect(callsFunction('"VANE.AIRFLOW(A1,B1)"', FUNCTIONS)).toBe(false);
    expect(callsFunction("SUM(A1:A9)", FUNCTIONS)).toBe(false);
  });
});
