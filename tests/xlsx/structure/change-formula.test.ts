import { describe, expect, it } from "vitest";
import { changeFormula, changeSharedFormula, formulaForNewRow } from "../../../src/xlsx/structure/change-formula.js";
import type { RowChange, RowList } from "../../../src/xlsx/structure/row-change.js";

const SHEETS = ["rooms", "jan", "feb", "mar", "by room's"];
const between = (first: string, last: string) =>
  SHEETS.slice(SHEETS.indexOf(first.toLowerCase()), SHEETS.indexOf(last.toLowerCase()) + 1);

function inserted(at: number, count: number, list?: RowList, sheet = "Rooms"): RowChange {
  return { sheet, at, inserted: count, deleted: 0, added: count, model: at - 1, list };
}

function deleted(at: number, count: number, sheet = "Rooms"): RowChange {
  return { sheet, at, inserted: 0, deleted: count, added: 0, model: undefined, list: undefined };
}

const after = (formula: string, change: RowChange, row = 1, sheet = "Rooms") =>
  changeFormula(formula, { sheet, row }, change, between).text;

describe("a formula after rows came or went", () => {
  it.each([
    ["A4+A5", "A4+A7"],
    ["SUM(A2:A9)", "SUM(A2:A11)"],
    ["SUM($A$9:$A$2)", "SUM($A$11:$A$2)"],
    ["SUM(A:A)+SUM(3:7)", "SUM(A:A)+SUM(3:9)"],
    ["SUM(A2:A4)", "SUM(A2:A4)"],
    ["Rooms!B5*'Rooms'!$B$6", "Rooms!B7*'Rooms'!$B$8"],
    ["Jan!B5+[1]Rooms!B5+'[x.xlsx]Rooms'!B5", "Jan!B5+[1]Rooms!B5+'[x.xlsx]Rooms'!B5"],
    ['"A5"&LOG10(5)&A5B&Table1[Row 5]', '"A5"&LOG10(5)&A5B&Table1[Row 5]'],
    ["A5:INDEX(A:A,9)", "A7:INDEX(A:A,9)"],
    ["@A5+A5#", "@A7+A7#"],
    ["SUM(A1:A1048576)", "SUM(A1:A1048576)"],
    ["A1048576", "#REF!"],
    ["Rooms!#REF!+1", "Rooms!#REF!+1"],
    ["_xldudf_VANE_OPENING_RECT(B5,C5)", "_xldudf_VANE_OPENING_RECT(B7,C7)"],
  ])("%s with two rows more at row 5 is %s", (formula, expected) => {
    expect(after(formula, inserted(5, 2))).toBe(expected);
  });

  it.each([
    ["A4+A5", "A4+#REF!"],
    ["SUM(A2:A9)", "SUM(A2:A7)"],
    ["SUM(A5:A6)", "SUM(#REF!)"],
    ["SUM(A6:A9)", "SUM(A5:A7)"],
    ["SUM(A2:A5)", "SUM(A2:A4)"],
    ["Rooms!B6", "Rooms!#REF!"],
    ["A7", "A5"],
  ])("%s without rows 5 and 6 is %s", (formula, expected) => {
    expect(after(formula, deleted(5, 2))).toBe(expected);
  });

  it("follows on other sheets only what names the sheet", () => {
    expect(after("A5+Rooms!A5+rooms!A5", inserted(5, 1), 1, "Jan")).toBe("A5+Rooms!A6+rooms!A6");
    const quoted = { ...inserted(5, 1), sheet: "By room's" };
    expect(after("'By room''s'!A5+A5", quoted, 1, "Jan")).toBe("'By room''s'!A6+A5");
  });

  it("says which reference through several sheets cannot follow rows of one of them", () => {
    const change = { ...inserted(5, 1), sheet: "Feb" };
    const at = (formula: string) => changeFormula(formula, { sheet: "Rooms", row: 1 }, change, between);
    expect(at("SUM(Jan:Mar!A5)")).toMatchObject({ stuck: true, text: "SUM(Jan:Mar!A5)" });
    expect(at("SUM('Jan:Mar'!A2:A9)").stuck).toBe(true);
    expect(at("SUM(Jan:Mar!A4)").stuck).toBe(false);
    expect(changeFormula("SUM(Jan:Mar!A5)", { sheet: "Rooms", row: 1 }, inserted(5, 1), between).stuck).toBe(false);
  });

  it("takes new rows at the end, or before the first row, of a list into blocks of the list, and into no other", () => {
    const list = { first: 9, last: 38, firstColumn: 1, lastColumn: 5 };
    const atEnd = inserted(39, 10, list);
    expect(after("SUM(B$9:B$38)", atEnd)).toBe("SUM(B$9:B$48)");
    expect(after("SUM(F$9:F$38)", atEnd)).toBe("SUM(F$9:F$38)");
    expect(after("VLOOKUP(1,$A$8:$E$38,2)", atEnd)).toBe("VLOOKUP(1,$A$8:$E$48,2)");
    expect(after("B38", atEnd)).toBe("B38");
    const atStart = inserted(9, 1, list);
    expect(after("SUM(B$9:B$38)", atStart)).toBe("SUM(B$9:B$39)");
    expect(after("SUM(F$9:F$38)", atStart)).toBe("SUM(F$10:F$39)");
    expect(after("B9", atStart)).toBe("B10");
  });

  it("leaves a running total with its row", () => {
    const list = { first: 9, last: 38, firstColumn: 1, lastColumn: 5 };
    expect(after("SUM(B$9:B38)", inserted(39, 10, list), 38)).toBe("SUM(B$9:B38)");
    expect(after("SUM(B$9:B38)", inserted(39, 10, list), 40)).toBe("SUM(B$9:B48)");
  });
});

describe("the formula of a new row", () => {
  it("is as far from its cells as its model, and follows what is fixed", () => {
    const list = { first: 9, last: 38, firstColumn: 1, lastColumn: 5 };
    const made = (formula: string, from: number, to: number, change: RowChange) =>
      formulaForNewRow(formula, { sheet: "Rooms", row: from }, to, change, between);
    expect(made("B38/SUM(B$9:B$38)+Jan!B38+$F$60", 38, 39, inserted(39, 2, list))).toBe(
      "B39/SUM(B$9:B$40)+Jan!B39+$F$62",
    );
    expect(made("C19+B20", 19, 20, inserted(20, 1, list))).toBe("C20+B21");
    expect(made("B9*$A$2", 9, 9, inserted(9, 1, list))).toBe("B9*$A$2");
    expect(made("A1048570", 38, 46, inserted(39, 8, list))).toBe("#REF!");
  });
});

describe("a formula that rows share", () => {
  const shared = (formula: string, change: RowChange, rows = { first: 25, last: 34 }, now = rows) =>
    changeSharedFormula(formula, rows, now, "Rooms", change, between);

  it("goes on reading its own row where rows come among it or before it", () => {
    expect(shared('$C25=""', inserted(30, 1), undefined, { first: 25, last: 35 }).text).toBe('$C25=""');
    expect(shared('$C25=""', inserted(20, 2), undefined, { first: 27, last: 36 }).text).toBe('$C27=""');
    expect(shared("D25>D24", inserted(30, 1), undefined, { first: 25, last: 35 }).text).toBe("D25>D24");
    expect(shared("D25>$D$22", inserted(20, 2), undefined, { first: 27, last: 36 }).text).toBe("D27>$D$24");
    expect(shared("D25>D5", inserted(20, 2), undefined, { first: 27, last: 36 }).text).toBe("D27>D5");
    expect(shared("D25>1", deleted(24, 3), undefined, { first: 24, last: 31 }).text).toBe("D24>1");
  });

  it("is said to be stuck where its rows would part from those that it reads", () => {
    expect(shared("D25>D5", inserted(30, 1), undefined, { first: 25, last: 35 }).stuck).toBe(true);
    expect(shared("D25>Jan!D25", inserted(30, 1), undefined, { first: 25, last: 35 }).stuck).toBe(true);
    expect(shared("D25>D5", inserted(10, 1), undefined, { first: 26, last: 35 }).stuck).toBe(true);
    expect(shared("D25>D5", deleted(5, 1), { first: 25, last: 25 }, { first: 24, last: 24 }).text).toBe("D24>#REF!");
  });
});
