import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../src/engine/index.js";
import { openWorkbook } from "../../src/xlsx/index.js";
import { plainParts, plainWorkbook, zipParts } from "../xlsx/plain-workbook.js";

const calculated = (rows: string) => calculateXlsx(openWorkbook(plainWorkbook(rows), "job.xlsx"));
const formulaCell = (formula: string) => `<row r="1"><c r="A1"><f>${formula.replaceAll("&", "&amp;")}</f></c></row>`;

describe("a formula of a few letters that asks for more than any machine holds", () => {
  it.each([
    ["SUMPRODUCT(B1:B9000+C1:ZZ1)", "a block of it would give more than 2500000 cells"],
    ["SUM(SEQUENCE(1E5,1E5))", "SEQUENCE would give more than 2500000 cells"],
    ["SUM(MUNIT(1E5))", "MUNIT would give more than 2500000 cells"],
    ["SUM(WRAPROWS(1,1E9))", "a wrapped block would give more than 2500000 cells"],
    ["MDETERM(MUNIT(1500))", "it takes more than 20000000 steps"],
    ["SUM(MMULT(MUNIT(1400),MUNIT(1400)))", "it takes more than 20000000 steps"],
    [`${"1^".repeat(2000)}1`, "it has more than 1000 operations and calls"],
    [`${"(".repeat(3000)}7${")".repeat(3000)}`, "it has more than 200 brackets within brackets"],
  ])("%s keeps its result, and it says why", (formula, reason) => {
    expect(calculated(formulaCell(formula))).toMatchObject({
      calculatedCount: 0,
      kept: [{ sheet: "Sheet1", address: "A1", reason }],
    });
  });

  it.each([
    ["SUM(B2:XFD1048576)", 0],
    ["SUM(B1:B999999,C1:C999999,D1:D999999,E1:E999999,F1:F999999)", 0],
    ["WORKDAY(1,1E10)", { error: "#NUM!" }],
    ["EDATE(1,1E15)", { error: "#NUM!" }],
    ["YEARFRAC(1,1E15)", { error: "#NUM!" }],
    ["CUMIPMT(0.1,1E10,1,1,1E10,0)", { error: "#NUM!" }],
    ["ROUND(1,1E9)", 1],
  ])("%s is answered by arithmetic, however far it goes", (formula, value) => {
    expect(calculated(formulaCell(formula)).edits).toMatchObject([{ address: "A1", value }]);
  });

  it("a pattern of sixty stars over a text of thirty thousand letters takes no longer than both multiplied", () => {
    const text = `<c r="A2" t="inlineStr"><is><t>${"a".repeat(30_000)}</t></is></c>`;
    const pattern = `${"*a".repeat(60)}*b`;
    const { kept, edits } = calculated(
      `<row r="1"><c r="A1"><f>COUNTIF(A2:A2,"${pattern}")</f></c></row><row r="2">${text}</row>`,
    );
    expect([kept, edits]).toMatchObject([[], [{ address: "A1", value: 0 }]]);
  });

  it("many formulas that each stay within their bounds are stopped together, and the rest goes on", () => {
    const cells = Array.from(
      { length: 80 },
      (_, index) =>
        `<row r="${index + 1}"><c r="A${index + 1}"><f>SUM(SEQUENCE(1500,1500))</f></c><c r="B${index + 1}"><f>1+1</f></c></row>`,
    );
    const { kept, calculatedCount } = calculated(cells.join(""));
    expect(kept.length).toBeGreaterThan(0);
    expect(kept.at(-1)?.reason).toMatch(/more steps than are allowed|takes more than|takes longer/);
    expect(calculatedCount + kept.length).toBe(160);
  });

  it("whole columns of a sheet with a cell in its last corner are more than that too", () => {
    const corner = '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>';
    const { kept } = calculated(`${formulaCell("SUM(B:XFD)")}${corner}`);
    expect(kept).toMatchObject([{ address: "A1", reason: "it takes more than 20000000 steps" }]);
  });

  it("an array formula over a whole sheet keeps its result, and what reads a cell of it takes the stored one", () => {
    const array = '<c r="A1"><f t="array" ref="A1:XFD1048576">VANE.OPENING.RECT(14,6)</f><v>1</v></c>';
    const { kept, edits } = calculated(
      `<row r="1">${array}<c r="B1"><v>5</v></c></row><row r="2"><c r="C2"><f>VANE.OPENING.FREE(B1,0.5)</f></c></row>`,
    );
    expect(kept).toMatchObject([{ address: "A1", reason: expect.stringContaining("fills more cells") }]);
    expect(edits).toMatchObject([{ address: "C2", value: 2.5 }]);
  });

  it("many array formulas that each fill a large block are calculated until they come to a million cells", () => {
    const rows = Array.from({ length: 5 }, (_, index) => {
      const row = 1 + 400 * index;
      const formula = `<f t="array" ref="A${row}:ALL${row + 399}">VANE.OPENING.RECT(14,6)</f>`;
      return `<row r="${row}"><c r="A${row}">${formula}<v>1</v></c></row>`;
    });
    const { calculatedCount, kept } = calculated(rows.join(""));
    expect([calculatedCount, kept.length]).toEqual([2, 3]);
  });
});

describe("a name that stands for no cells", () => {
  const withName = (refersTo: string, formula: string) => {
    const parts = plainParts(`<row r="1"><c r="A1"><f>${formula}</f><v>1.5</v></c></row>`);
    const names = `</sheets><definedNames><definedName name="Share">${refersTo}</definedName></definedNames>`;
    const list = (parts["xl/workbook.xml"] ?? "").replace("</sheets>", names);
    return calculateXlsx(openWorkbook(zipParts({ ...parts, "xl/workbook.xml": list }), "job.xlsx"));
  };

  it.each([
    ["a number", "0.5", 1],
    ["a sum", "0.25+0.25", 1],
  ])("%s is calculated", (_, refersTo, value) => {
    expect(withName(refersTo, "VANE.OPENING.FREE(2,Share)").edits).toMatchObject([{ address: "A1", value }]);
  });

  it.each([
    ["another name", "ISOWEEKNUMDMIN"],
    ["letters that might be a column", "AB"],
  ])("%s that is not there is #NAME?", (_, refersTo) => {
    expect(withName(refersTo, "VANE.OPENING.FREE(2,Share)").errors).toMatchObject([{ address: "A1", error: "#NAME?" }]);
  });

  it.each([
    ["cells beyond the last column", "XFE1:ZZZ9"],
    ["a cell beyond the last row", "A9999999"],
    ["another workbook", "[1]Sheet1!$A$1"],
  ])("%s is not taken for one: the formula keeps its result", (_, refersTo) => {
    expect(withName(refersTo, "VANE.OPENING.FREE(2,Share)")).toMatchObject({
      calculatedCount: 0,
      kept: [{ address: "A1", isOutdated: false }],
    });
  });
});

describe("what a function can never take", () => {
  it.each(["SUMIFS(1,2,3)", "DSUM(1,2,3)", 'TEXT(1,"1x#;")', "TREND(1,2,3,4)"])(
    "%s is an answer or an error in its own cell",
    (formula) => {
      const { edits, kept } = calculated(`${formulaCell(formula)}<row r="2"><c r="B2"><f>1+1</f></c></row>`);
      expect(kept).toEqual([]);
      expect(edits).toMatchObject([{ address: "A1" }, { address: "B2", value: 2 }]);
    },
  );

  it("HYPERLINK shows the text that it is given", () => {
    expect(calculated(formulaCell('HYPERLINK("a","b")')).edits).toMatchObject([{ value: "b" }]);
  });

  it("a text longer than a cell can hold is #VALUE!, as in Excel, and the file can be saved", () => {
    const text = `<c r="B1" t="str"><v>${"x".repeat(20_000)}</v></c>`;
    const { edits } = calculated(`<row r="1"><c r="A1"><f>B1&amp;B1</f></c>${text}<c r="C1"><f>LEN(A1)</f></c></row>`);
    expect(edits.find(({ address }) => address === "A1")?.value).toEqual({ error: "#VALUE!" });
  });
});
