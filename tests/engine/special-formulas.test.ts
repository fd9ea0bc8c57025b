import { describe, expect, it } from "vitest";
import { calculateXlsx, workbookData } from "../../src/engine/index.js";
import { openWorkbook, parseAddress, patchWorkbook, readSheet, valueAt } from "../../src/xlsx/index.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships";

const number = (address: string, value: number) => `<c r="${address}"><v>${value}</v></c>`;
const text = (address: string, value: string) => `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
const formula = (address: string, body: string, stored: number) => `<c r="${address}">${body}<v>${stored}</v></c>`;

/** Rows of XML as a workbook, and what it holds after the cells that are named have changed. */
function after(rows: string, changed: readonly string[], more: Record<string, string> = {}, tail = "") {
  const sheet = `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheetData>${rows}</sheetData>${tail}</worksheet>`;
  const workbook = openWorkbook(plainWorkbook("", more, sheet), "job.xlsx");
  const places = changed.map((address) => ({
    sheet: "Sheet1",
    ...(parseAddress(address) as { row: number; column: number }),
  }));
  const { edits, kept } = calculateXlsx(workbook, places);
  const made = readSheet(openWorkbook(patchWorkbook(workbook, edits), "job.xlsx"), "Sheet1");
  const value = (address: string) => {
    const { row, column } = parseAddress(address) ?? { row: 0, column: 0 };
    return valueAt(made, row, column);
  };
  return { workbook, value, kept: kept.map(({ address, reason, isOutdated }) => ({ address, reason, isOutdated })) };
}

/** Airflow of one opening at three velocities: the corner holds the formula, the table tries velocities in A1. */
const WHAT_IF =
  `<row r="1">${number("A1", 400)}${number("B1", 2.5)}</row>` +
  `<row r="3">${formula("B3", "<f>A1*B1</f>", 1000)}</row>` +
  `<row r="4">${number("A4", 300)}${formula("B4", '<f t="dataTable" ref="B4:B6" dt2D="0" dtr="0" r1="A1"/>', 750)}</row>` +
  `<row r="5">${number("A5", 400)}${number("B5", 1000)}${formula("D5", "<f>B5+1</f>", 1001)}</row>` +
  `<row r="6">${number("A6", 500)}${number("B6", 1250)}${formula("D6", "<f>A6*2</f>", 1000)}</row>`;

describe("a what-if table", () => {
  it("loses its results when what it is made from has changed, and so does what reads them; each is listed", () => {
    const { value, kept } = after(WHAT_IF, ["B1"]);
    expect(kept).toEqual([
      { address: "B4", reason: "it is a what-if table", isOutdated: true },
      { address: "D5", reason: "it depends on B5, which is not calculated here", isOutdated: true },
    ]);
    for (const address of ["B4", "B5", "B6", "D5"]) expect(value(address), address).toBeNull();
    expect(value("B3")).toBe(1000);
  });

  it("keeps its results while nothing that it is made from has changed", () => {
    const { value, kept } = after(WHAT_IF, ["F9"]);
    expect(kept).toEqual([]);
    expect([value("B4"), value("B5"), value("B6"), value("D5")]).toEqual([750, 1000, 1250, 1001]);
  });

  it("is listed on the page", () => {
    const { workbook } = after(WHAT_IF, []);
    expect(workbookData(workbook).kept).toMatchObject([{ address: "B4", reason: "it is a what-if table" }]);
  });
});

describe("a formula that a file stores in a special way", () => {
  it("is calculated in each cell where its text is shared", () => {
    const { value, kept } = after(
      `<row r="1">${number("A1", 3)}${formula("B1", '<f t="shared" ref="B1:B3" si="0">A1*2+$A$1</f>', 0)}</row>` +
        `<row r="2">${number("A2", 4)}${formula("B2", '<f t="shared" si="0"/>', 0)}</row>` +
        `<row r="3">${number("A3", 5)}${formula("B3", '<f t="shared" si="0"/>', 0)}</row>`,
      ["A1", "A2", "A3"],
    );
    expect([value("B1"), value("B2"), value("B3"), kept]).toEqual([9, 11, 13, []]);
  });

  it("fills the block of an array formula, and gives one value of a block where it is none", () => {
    const { value, kept } = after(
      `<row r="1">${number("A1", 3)}${formula("B1", '<f t="array" ref="B1:B2">A1:A2*2</f>', 0)}${formula("C1", "<f>A1:A2*2</f>", 0)}</row>` +
        `<row r="2">${number("A2", 4)}${number("B2", 0)}${formula("C2", "<f>A1:A2*2</f>", 0)}</row>` +
        `<row r="3">${formula("C3", "<f>A1:A2*2</f>", 0)}</row>`,
      ["A1", "A2"],
    );
    expect([value("B1"), value("B2"), value("C1"), value("C2")]).toEqual([6, 8, 6, 8]);
    expect(value("C3")).toEqual({ error: "#VALUE!" });
    expect(kept).toEqual([]);
  });

  it("is calculated where the file marks it to be calculated on opening", () => {
    const { value } = after(`<row r="1">${number("A1", 3)}${formula("B1", '<f ca="1">A1+1</f>', 0)}</row>`, ["A1"]);
    expect(value("B1")).toBe(4);
  });

  it("keeps what it read in another workbook, and loses it when something else that it reads has changed", () => {
    const rows = `<row r="1">${number("A1", 3)}${formula("B1", "<f>[1]Rooms!$A$1*2</f>", 40)}${formula("C1", "<f>B1+1</f>", 41)}${formula("D1", "<f>[1]Rooms!$A$1+A1</f>", 23)}</row>`;
    const { value, kept } = after(rows, ["A1"]);
    expect([value("B1"), value("C1"), value("D1")]).toEqual([40, 41, null]);
    expect(kept).toMatchObject([{ address: "D1", isOutdated: true }]);
  });

  it("reads names that stand for a cell beside it, and whole columns", () => {
    const names = `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets><definedNames><definedName name="LeftOf">Sheet1!XFD1</definedName><definedName name="Flow">Sheet1!$A:$A</definedName></definedNames></workbook>`;
    const { value, kept } = after(
      `<row r="1">${number("A1", 3)}${formula("B1", "<f>LeftOf*10</f>", 0)}${formula("D1", "<f>SUM(Flow)+SUM(A:A)</f>", 0)}</row>` +
        `<row r="2">${number("A2", 4)}${formula("B2", "<f>LeftOf*10</f>", 0)}${formula("C2", "<f>LeftOf+1</f>", 0)}</row>`,
      ["A1", "A2"],
      { "xl/workbook.xml": names },
    );
    expect([value("B1"), value("B2"), value("C2"), value("D1"), kept]).toEqual([30, 40, 41, 14, []]);
  });

  it("reads its own row, a column and the totals of a table", () => {
    const table = `<table xmlns="${MAIN}" id="1" name="Outlets" displayName="Outlets" ref="A1:C4" totalsRowCount="1"><tableColumns count="3"><tableColumn id="1" name="Outlet" totalsRowLabel="Total"/><tableColumn id="2" name="cfm" totalsRowFunction="sum"/><tableColumn id="3" name="share"><calculatedColumnFormula>Outlets[[#This Row],[cfm]]/Outlets[[#Totals],[cfm]]</calculatedColumnFormula></tableColumn></tableColumns></table>`;
    const share = "<f>Outlets[[#This Row],[cfm]]/Outlets[[#Totals],[cfm]]</f>";
    const { value, kept } = after(
      `<row r="1">${text("A1", "Outlet")}${text("B1", "cfm")}${text("C1", "share")}</row>` +
        `<row r="2">${text("A2", "S-1")}${number("B2", 150)}${formula("C2", share, 0)}</row>` +
        `<row r="3">${text("A3", "S-2")}${number("B3", 50)}${formula("C3", share, 0)}</row>` +
        `<row r="4">${text("A4", "Total")}${formula("B4", "<f>SUBTOTAL(109,Outlets[cfm])</f>", 0)}</row>` +
        `<row r="6">${formula("A6", "<f>SUM(Outlets[cfm])+COUNTA(Outlets[[#Headers],[Outlet]:[cfm]])</f>", 0)}</row>`,
      ["B2", "B3"],
      {
        "xl/tables/table1.xml": table,
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${PACKAGE}"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
      },
      '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
    );
    expect([value("B4"), value("C2"), value("C3"), value("A6"), kept]).toEqual([200, 0.75, 0.25, 202, []]);
  });
});
