import { describe, expect, it } from "vitest";
import { calculateXlsx, evaluateFormula } from "../../src/engine/index.js";
import { openWorkbook } from "../../src/xlsx/index.js";
import { plainParts, plainWorkbook, zipParts } from "../xlsx/plain-workbook.js";

const calculated = (rows: string) => calculateXlsx(openWorkbook(plainWorkbook(rows), "job.xlsx"));
const formulaCell = (formula: string) => `<row r="1"><c r="A1"><f>${formula.replaceAll("&", "&amp;")}</f></c></row>`;

describe("a formula of a few letters that asks for more than any machine holds", () => {
  it.each([
    ["SUM(B2:XFD1048576)", "it reads more than 4000000 cells"],
    ["_xldudf_VANE_TRAVERSE_AVERAGE(B2:XFD1048576)", "it reads more than 4000000 cells"],
    ["SUM(B1:B999999,C1:C999999,D1:D999999,E1:E999999,F1:F999999)", "it reads more than 4000000 cells"],
    ["SUM(B1:B3000+C1:ZZ1)*0+SUM(B1:B9000+C1:ZZ1)", "ADD would give more than 4000000 cells"],
    ["SUM(SEQUENCE(1E5,1E5))", "SEQUENCE would give more than 4000000 cells"],
    ["SUM(MUNIT(1E5))", "MUNIT would give more than 4000000 cells"],
    ["SUM(WRAPROWS(1,1E9))", "WRAPROWS would give more than 4000000 cells"],
    [`${"1^".repeat(2000)}1`, "it has more than 1000 operations and calls"],
    ["WORKDAY(1,1E10)", "WORKDAY would have to count up to more than 2958465"],
    ["CUMIPMT(0.1,1E10,1,1,1E10,0)", "CUMIPMT would have to count up to more than 2958465"],
  ])("%s keeps its result, and it says why", (formula, reason) => {
    expect(calculated(formulaCell(formula))).toMatchObject({
      calculatedCount: 0,
      kept: [{ sheet: "Sheet1", address: "A1", reason }],
    });
  });

  it("whole columns of a sheet with a cell in its last corner are more than that too", () => {
    const corner = '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>';
    const { kept } = calculated(`${formulaCell("SUM(B:XFD)")}${corner}`);
    expect(kept).toMatchObject([{ address: "A1", reason: "it reads more than 4000000 cells" }]);
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
  it.each([
    ["another name", "ISOWEEKNUMDMIN"],
    ["letters that might be a column", "AB"],
    ["a number", "12"],
    ["cells beyond the last column", "XFE1:ZZZ9"],
    ["a cell beyond the last row", "A9999999"],
  ])("%s is not taken for one: the formula keeps its result", (_, refersTo) => {
    const rows = '<row r="1"><c r="A1"><f>VANE.OPENING.FREE(2,Share)</f><v>1.5</v></c></row>';
    const parts = plainParts(rows);
    const names = `</sheets><definedNames><definedName name="Share">${refersTo}</definedName></definedNames>`;
    const list = (parts["xl/workbook.xml"] ?? "").replace("</sheets>", names);
    const workbook = openWorkbook(zipParts({ ...parts, "xl/workbook.xml": list }), "job.xlsx");
    expect(calculateXlsx(workbook)).toMatchObject({
      calculatedCount: 0,
      kept: [{ address: "A1", reason: "its name Share stands for something else than cells" }],
    });
  });
});

describe("a formula with which the library cannot do anything", () => {
  it.each([
    ["FREQUENCY(1,2)", "#NAME?"],
    ["SUMIFS(1,2,3)", "#NAME?"],
    ["DSUM(1,2,3)", "#NAME?"],
  ])("%s is an error in its own cell", (formula, error) => {
    expect(calculated(`${formulaCell(formula)}<row r="2"><c r="B2"><f>1+1</f></c></row>`)).toMatchObject({
      errors: [{ address: "A1", error, message: expect.stringContaining("reference to a cell or range") }],
      edits: [{ address: "A1" }, { address: "B2", value: 2 }],
    });
  });

  it.each(['TEXT(1,"1x#;")', "TREND(1,2,3,4)"])("%s, in which the library fails, keeps its result", (formula) => {
    const { kept, errors } = calculated(formulaCell(formula));
    expect(errors).toEqual([]);
    expect(kept).toMatchObject([{ reason: expect.stringMatching(/^the spreadsheet engine cannot calculate it \(/) }]);
  });

  it("names no support desk of others", () => {
    expect(evaluateFormula('TEXT(1,"1x#;")')).toMatchObject({
      kind: "error",
      code: "#VALUE!",
      message: expect.stringMatching(/^The spreadsheet engine cannot calculate this: /),
    });
  });

  it("HYPERLINK keeps the text that it shows, which the library would give as a link of its own", () => {
    expect(calculated(formulaCell('HYPERLINK("a","b")')).kept).toMatchObject([
      { reason: "HYPERLINK is not calculated here" },
    ]);
  });

  it("a text longer than a cell can hold is #VALUE!, as in Excel, and the file can be saved", () => {
    const text = `<c r="B1" t="str"><v>${"x".repeat(20_000)}</v></c>`;
    const { edits } = calculated(`<row r="1"><c r="A1"><f>B1&amp;B1</f></c>${text}<c r="C1"><f>LEN(A1)</f></c></row>`);
    expect(edits.find(({ address }) => address === "A1")?.value).toEqual({ error: "#VALUE!" });
  });
});
